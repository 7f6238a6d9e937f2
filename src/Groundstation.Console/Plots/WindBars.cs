using Groundstation.Console.Cells;

namespace Groundstation.Console.Plots;

/// <summary>Wind speed by height as bars with their spread, and an arrow for where it blows to.</summary>
internal static class WindBars
{
    /// <summary>
    /// One bar: solid to the speed, a thin line as long as its spread to either side, a sign at the forecast.
    /// </summary>
    public static void Draw(Pane row, WindRow wind, double fullMps, double? forecastMps = null)
    {
        if (row.Width < 1 || fullMps <= 0) return;
        double perCell = fullMps / row.Width;
        int solid = (int)Math.Round(wind.Wind.SpeedMps / perCell);
        int low = (int)Math.Round((wind.Wind.SpeedMps - wind.SpreadMps) / perCell);
        int high = (int)Math.Round((wind.Wind.SpeedMps + wind.SpreadMps) / perCell);
        Ink ink = wind.Newest.Measured is null ? Ink.Quiet : Ink.Track;
        for (int x = 0; x < row.Width; x++)
        {
            if (x < solid) row.Put(x, 0, x >= low ? '▒' : '█', ink);
            else if (x < high) row.Put(x, 0, '─', ink);
        }

        if (forecastMps is { } f) row.Put(Math.Min((int)(f / perCell), row.Width - 1), 0, '◇', Ink.Path);
    }
}
