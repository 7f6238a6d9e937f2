using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Report;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Io.Desk;

/// <summary>
/// What to talk about after an exercise: what was raised and when it was answered, what the chase team was told and
/// how far off it was. It judges nobody: it says what happened, and asks.
/// </summary>
internal static class Debrief
{
    // A callout takes about 20 s to say and to read back, and a hand is not always free.
    private const double PromptS = 30;

    /// <summary>The lines.</summary>
    /// <param name="name">The flight's name.</param>
    /// <param name="notes">What was noted.</param>
    /// <param name="acts">What the trainee did.</param>
    /// <param name="jumps">How often the replay was moved.</param>
    /// <param name="passedOver">Stretches that the trainee has jumped over, arrival times.</param>
    /// <param name="seen">When the screen with the alarms stood open.</param>
    /// <param name="until">Station time at the end.</param>
    /// <param name="units">The units of its figures.</param>
    /// <param name="truth">Where it came down; null: not known, or not to be told yet.</param>
    public static IReadOnlyList<string> Lines(string name, DeskNotes notes, IReadOnlyList<RecordedEvent> acts,
        int jumps, IReadOnlyList<(Instant From, Instant To)> passedOver, AlarmsSeen seen, Instant until,
        DisplayUnits units, TrueLanding? truth)
    {
        List<string> lines = [$"Debrief: {name}, up to {Clock(until)} UTC"];
        if (jumps > 0)
            lines.Add(Say($"The replay was moved {Times(jumps)}; what counts is the last way through."));
        Alarms(notes, passedOver, seen, units, lines);
        Acts(acts, lines);
        Callouts(notes.Callouts, truth, units, lines);
        return lines;
    }

    private static void Alarms(DeskNotes notes, IReadOnlyList<(Instant From, Instant To)> passedOver,
        AlarmsSeen seen, DisplayUnits units, List<string> lines)
    {
        lines.AddRange(["", "Alarms: when each was looked at on screen 7, and when it was answered"]);
        List<(string Id, double? Waited)> all = [];
        for (int i = 0; i < notes.Alarms.Length; i++)
        {
            AlarmNote raised = notes.Alarms[i];
            if (raised.Change != "raised")
                continue;
            AlarmNote? answer = notes.Alarms.Skip(i + 1).Where(n => n.Alarm.Id == raised.Alarm.Id)
                .TakeWhile(n => n.Change != "raised").Where(n => n.Change is "acknowledged" or "shelved")
                .Select(n => (AlarmNote?)n).FirstOrDefault();
            double? waited = answer?.Utc.SecondsSince(raised.Utc);
            bool passed = waited is null && passedOver.Any(p => raised.At > p.From && raised.At <= p.To);
            if (!passed)
                all.Add((raised.Alarm.Id, waited));
            string severity = Cells.Word(raised.Alarm.Severity).ToUpperInvariant();
            lines.Add($"  {Clock(raised.Utc)}  {severity,-8}  {raised.Alarm.Cause.In(units)}");
            // An alarm is seen on other screens, too; what can be known is when it was looked up.
            string looked = seen.After(raised.At) is { } first
                && (answer is not { } a || first <= a.At) ? first == raised.At ? "screen 7 stood open, "
                : $"looked at after {Span(first.SecondsSince(raised.At))}, " : "";
            lines.Add("            " + (waited is { } s ? $"{looked}{answer!.Value.Change} after {Span(s)}"
                : passed ? "passed over in a jump" : looked + "not acknowledged"));
        }

        if (all.Count == 0)
        {
            lines.Add("  None was there to answer.");
            return;
        }

        int prompt = all.Count(a => a.Waited <= PromptS), open = all.Count(a => a.Waited is null);
        lines.Add(Say($"  Answered within {PromptS} s: {prompt} of {all.Count}; later: {all.Count - prompt - open}; ")
            + Say($"not at all: {open}."));
        if (all.Where(a => a.Waited > PromptS).OrderByDescending(a => a.Waited).FirstOrDefault().Id is { } slow)
            lines.Add($"  Ask: what else was going on while \"{slow}\" waited?");
        if (open > 0)
            lines.Add("  Ask: were those left open seen and thought about, or did they pass unseen?");
    }

    private static void Acts(IReadOnlyList<RecordedEvent> acts, List<string> lines)
    {
        int notes = acts.Count(a => a.Done!.Verb == "note");
        if (notes > 0)
            lines.Add(Say($"  Notes written: {notes}."));
    }

    private static void Callouts(ImmutableArray<CalloutNote> callouts, TrueLanding? truth, DisplayUnits units,
        List<string> lines)
    {
        lines.AddRange(["", "What the chase team was to be told"]);
        if (truth is not null)
            lines.Add($"  It came down at {truth.Position}"
                + (truth.Utc is { } at ? $" at {Clock(at)}" : "") + $" (by {truth.Known}).");
        int told = 0, held = 0, within = 0;
        foreach (CalloutNote note in callouts)
        {
            bool given = note.Said.ReadBack.Length > 0;
            told += given ? 1 : 0;
            string read = note.Said.ReadBack switch
            {
                "correct" => "read back",
                "wrong" => "read back WRONG",
                _ => "no read-back noted",
            };
            string off = "";
            if (truth is not null && note.Landing is { } l)
            {
                var way = Geodesic.Inverse(l.Position, truth.Position);
                bool inside = LandingScore.Holds(l.Area95, way);
                held++;
                within += inside ? 1 : 0;
                Measure major = DistanceAfar(l.Area95.MajorM), minor = DistanceAfar(l.Area95.MinorM);
                off = ((Saying)$", {DistanceAfar(way.DistanceM)} off, {(inside ? "inside" : "OUTSIDE")} the area "
                    + $"given ({major.Bare} × {minor})").In(units);
            }

            lines.Add($"  {Clock(note.Said.Utc)}  {note.Said.Occasion,-12} {read}{off}");
        }

        if (callouts.IsEmpty)
        {
            lines.Add("  Nothing yet.");
            return;
        }

        lines.Add(Say($"  {callouts.Length} callouts were offered, {told} noted as read back."));
        if (told < callouts.Length)
            lines.Add("  Ask: which of those without a read-back did the chase team need, and did it have them?");
        if (held > 0)
            lines.Add(Say($"  {within} of {held} areas held the landing; about 19 in 20 should in the long run."));
    }

    private static string Span(double seconds) => seconds < 100 ? Say($"{seconds:F0} s")
        : Say($"{(int)seconds / 60} min {(int)seconds % 60} s");

    private static string Times(int n) => n switch { 1 => "once", 2 => "twice", _ => Say($"{n} times") };

    private static string Clock(Instant at) => at.ToDateTime().ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Say(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
