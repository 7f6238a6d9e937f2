using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>When the trainee had the screen with the alarms open, in arrival time of the replay.</summary>
internal sealed class AlarmsSeen
{
    private readonly List<(Instant At, bool Open)> _turns = [];

    /// <summary>It was opened or left.</summary>
    public void Turn(Instant at, bool open)
    {
        if (open != (_turns.Count > 0 && _turns[^1].Open))
            _turns.Add((at, open));
    }

    /// <summary>The replay went back to a moment: what was seen after it was not. An open screen stays open.</summary>
    public void BackTo(Instant at)
    {
        bool open = _turns.Count > 0 && _turns[^1].Open;
        if (_turns.RemoveAll(turn => turn.At > at) > 0)
            Turn(at, open);
    }

    /// <summary>The first moment at or after another one at which it was open; null: never.</summary>
    public Instant? After(Instant at)
    {
        int later = _turns.FindIndex(turn => turn.At > at);
        bool open = later switch { < 0 => _turns.Count > 0 && _turns[^1].Open, 0 => false, _ => _turns[later - 1].Open };
        return open ? at : later >= 0 && _turns.FindIndex(later, turn => turn.Open) is >= 0 and var next
            ? _turns[next].At : null;
    }
}
