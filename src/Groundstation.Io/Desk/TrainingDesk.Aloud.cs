using System.Collections.Immutable;
using Groundstation.Core.Callouts;
using Groundstation.Io.Speech;

namespace Groundstation.Io.Desk;

/// <summary>Callouts read aloud while it plays.</summary>
public sealed partial class TrainingDesk
{
    /// <summary>
    /// A callout takes 20 s to read, and in the descent one comes every three minutes: faster than this they would run
    /// into each other.
    /// </summary>
    public const double FastestAloud = 2;

    private Speaker? _speaker;

    /// <summary>
    /// From now on callouts are read aloud by the plan's speech program, up to <see cref="FastestAloud"/> times real time,
    /// and at any rate when the trainee asks for one. What a jump passes is not read.
    /// </summary>
    /// <exception cref="UserErrorException">The plan names no program.</exception>
    public void ReadAloud() => _speaker = Plan.Speech.Program is null
        ? throw new UserErrorException("the plan names no program that reads aloud: state program under [speech]")
        : new Speaker(Plan.Speech, _time, text => Ask(_ => Set(_status with { Said = text })));

    /// <summary>Plays, and reads aloud what has come up.</summary>
    private void PlayAloud(Action play, bool onlyAsked)
    {
        ImmutableArray<(Callout Callout, bool Asked)> before = _run.Notes.Aloud;
        play();
        foreach ((Callout callout, bool asked) in _run.Notes.Aloud.Skip(before.Length))
        {
            if (asked || !onlyAsked)
                _speaker?.Say(callout.Number, callout.Spoken, asked);
        }
    }
}
