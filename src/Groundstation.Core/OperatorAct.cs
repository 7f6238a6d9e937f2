namespace Groundstation.Core;

/// <summary>Something the operator did. It is an event of the recording, so a replay shows it.</summary>
/// <param name="Verb">
/// What, in lower case: <c>acknowledge</c>, <c>shelve</c>, <c>unshelve</c>, <c>note</c>, <c>mark-launch</c>,
/// <c>mark-burst</c>, <c>read-back</c>, <c>speak</c>, <c>full-callout</c>, <c>search-sheet</c>, <c>chase-position</c>,
/// <c>ground-height</c>, <c>units</c>, <c>confirm</c>, <c>withdraw</c> (a point of the launch checklist), <c>go</c>, <c>no-go</c>.
/// The session itself tells <c>storage</c> (what cannot be written, empty when it can again), <c>clock</c> (a step of
/// the host clock, in words), <c>clock-set</c> (the same, s), <c>disk</c> (room left, MB), <c>share</c>, <c>recording</c> (a repair) and <c>speech</c> (what became
/// of the reading aloud).
/// </param>
/// <param name="Argument">On what: an alarm's id, the note's text, …; may be empty.</param>
public sealed record OperatorAct(string Verb, string Argument);
