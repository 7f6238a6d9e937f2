using Groundstation.Console.Cells;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Plots;

/// <summary>The time axis that the altitude and the rate plot share: from launch to landing.</summary>
/// <param name="From">Left edge.</param>
/// <param name="SpanS">Seconds to the right edge.</param>
/// <param name="Dots">Dots across.</param>
internal readonly record struct TimeAxis(Instant From, double SpanS, int Dots)
{
    /// <summary>An axis that holds the flight so far and what is expected of it.</summary>
    public static TimeAxis? Fit(Snapshot s, int columns)
    {
        // Before launch the last half hour is enough, and the first fixes may carry a date not yet put right.
        Instant? from = s.Flight.Launch?.Utc;
        if (s.Marks.Launch is { } marked && (from is null || (marked < from && from.Value.SecondsSince(marked) < 1800)))
            from = marked;
        foreach (Core.Flight.Waypoint w in s.Track)
        {
            if (from is not null) break;
            if (w.Utc.SecondsSince(s.Utc) > -1800) from = w.Utc;
        }

        if (from is not { } start || columns < 1) return null;
        Instant end = s.Track.Length > 0 ? s.Track[^1].Utc : start;
        if (s.Landing is { } l && l.LandingUtc > end && !Shown.OnGround(s)) end = l.LandingUtc;
        if (s.Flight.Landed is { } landed && landed.Utc > start) end = landed.Utc;
        else if (Shown.Silent(s) && s.Utc > end) end = s.Utc;
        // In ten-minute steps: the dots already drawn stay where they are for that long.
        double span = Math.Max(600, Math.Ceiling(end.SecondsSince(start) * 1.02 / 600) * 600);
        return new TimeAxis(start, span, columns * 2);
    }

    /// <summary>Dot of a moment.</summary>
    public double Dot(Instant at) => at.SecondsSince(From) / SpanS * (Dots - 1);

    /// <summary>Times since launch, along one row of a pane as wide as the axis.</summary>
    public void Label(Pane row)
    {
        double step = Ticks.Time(SpanS, row.Width / 10);
        for (double t = 0; t <= SpanS; t += step)
        {
            string text = t == 0 ? "T+0" : string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"{(int)(t / 3600)}:{(int)(t / 60) % 60:D2}");
            int x = (int)(t / SpanS * (Dots - 1) / 2);
            row.Text(Math.Min(x, row.Width - text.Length), 0, text, Ink.Quiet);
        }
    }
}
