using Groundstation.Core.Alarms;

namespace Groundstation.Console.Screens;

/// <summary>
/// When the terminal's bell rings: three times for a warning, twice for a caution, once for an advisory; an open warning
/// again every ten seconds, an open caution every minute. Muted, only a new warning rings. Counts ticks of a tenth of a
/// second; knows nothing of the terminal.
/// </summary>
internal sealed class Bell
{
    // Closer together, terminals join the strokes to one.
    private const int BetweenStrokes = 3;
    private const int WarningAgain = 100, CautionAgain = 600;

    private int _order;
    private int _left;
    private int _wait;
    private int _quiet;

    /// <summary>One tick; true when the bell is to be struck once.</summary>
    /// <param name="alarms">The alarms that are not normal.</param>
    /// <param name="muted">True while the operator wants quiet.</param>
    public bool Tick(IReadOnlyCollection<AlarmState> alarms, bool muted)
    {
        _quiet++;
        Severity? fresh = null, open = null;
        foreach (AlarmState alarm in alarms)
        {
            if (alarm.Phase != AlarmPhase.Unacknowledged) continue;
            if (alarm.Order > _order) fresh = Worse(fresh, alarm.Severity);
            open = Worse(open, alarm.Severity);
        }

        // A replay that begins again counts from one.
        _order = alarms.Count == 0 ? 0 : Math.Max(_order, alarms.Max(a => a.Order));
        int again = open switch { Severity.Warning => WarningAgain, Severity.Caution => CautionAgain, _ => int.MaxValue };
        if (fresh is { } now && (!muted || now == Severity.Warning)) _left = Math.Max(_left, Strokes(now));
        else if (!muted && _quiet >= again) _left = Strokes(open!.Value);
        else if (muted && fresh is null && open != Severity.Warning) _left = 0;
        if (_wait > 0) _wait--;
        if (_left == 0 || _wait > 0) return false;
        (_left, _wait, _quiet) = (_left - 1, BetweenStrokes, 0);
        return true;
    }

    private static int Strokes(Severity severity) => severity switch
    {
        Severity.Warning => 3,
        Severity.Caution => 2,
        _ => 1,
    };

    private static Severity? Worse(Severity? a, Severity b) => a is { } known && known > b ? known : b;
}
