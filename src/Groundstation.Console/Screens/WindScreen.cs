using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Core;
using Groundstation.Core.Air;

namespace Groundstation.Console.Screens;

/// <summary>What is the wind? The column as a table with bars and their spread, highest on top.</summary>
internal static class WindScreen
{
    /// <summary>Narrower than this the column of what a row rests on keeps to one short word.</summary>
    private const int Roomy = 16;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "What is the wind?", WindRows.Forecast(s).Length > 0 ? "forecast beside it"
            : "no forecast in the plan");
        List<WindRow> winds = WindRows.Of(s, pane.Height - 3);
        if (winds.Count == 0)
        {
            pane.Text(1, 2, "Nothing measured yet: the payload's drift will tell.");
            return;
        }

        bool forecast = WindRows.Forecast(s).Length > 0;
        int bars = pane.Width - (forecast ? 25 : 0);
        pane.Text(1, 1, "height", Ink.Quiet);
        pane.Text(18, 1, "from", Ink.Quiet);
        pane.Part(27, 1, 9, 1).Right(0, "speed", Ink.Quiet);
        pane.Part(37, 1, 9, 1).Right(0, "±", Ink.Quiet);
        pane.Text(48, 1, bars - 48 < Roomy ? "by" : "measured", Ink.Quiet);
        if (forecast) pane.Text(bars, 1, "forecast, off by", Ink.Quiet);
        double full = Ticks.FineNotBelow(winds.Max(w => w.Wind.SpeedMps + w.SigmaMps));
        for (int i = 0; i < winds.Count; i++)
        {
            Row(pane.Part(0, i + 2, pane.Width, 1), winds[i], s, fig, full, bars);
            if (forecast) Forecast(pane.Part(bars, i + 2, 25, 1), winds[i], s, fig);
        }

        string scale = pane.Width >= 100 ? $"bars reach to {fig.Speed(full)}; " : "";
        pane.Text(1, pane.Height - 1, scale + (winds.Max(w => w.Layers) is var most && most > 1
            ? $"each row is the mean of {most} layers" : "each row is one layer"), Ink.Quiet);
    }

    private static void Row(Pane row, WindRow w, Snapshot s, Figures fig, double full, int end)
    {
        row.Part(0, 0, 14, 1).Right(0, Span(w, fig), w.HoldsBalloon ? Ink.Strong : Ink.Plain);
        row.Put(15, 0, w.HoldsBalloon ? '●' : ' ', Ink.Strong);
        if (w.Wind.SpeedMps >= 0.5)
        {
            row.Put(17, 0, Figures.Arrow(w.Wind.FromDeg + 180), Ink.Plain);
            row.Text(19, 0, fig.BearingWithPoint(w.Wind.FromDeg));
        }
        row.Part(27, 0, 9, 1).Right(0, fig.Speed(w.Wind.SpeedMps), Ink.Strong);
        row.Part(37, 0, 9, 1).Right(0, fig.Speed(w.SigmaMps));
        string age = w.Newest.Measured is { } at ? Figures.Span(s.Utc.SecondsSince(at)) + " ago " : "";
        string basis = WindRows.Basis(w.Newest.Basis);
        Pane rest = row.Part(48, 0, end - 48, 1);
        string text = rest.Width >= 60 ? age + basis : rest.Width >= Roomy
            ? basis : WindRows.ShortBasis(w.Newest.Basis);
        rest.Text(0, 0, text, w.Newest.Measured is null ? Ink.Quiet : Ink.Plain);
        int column = rest.Width >= 60 ? 31 : 16;
        WindBars.Draw(rest.Part(column, 0, rest.Width - column - 1, 1), w, full);
    }

    private static void Forecast(Pane cell, WindRow w, Snapshot s, Figures fig)
    {
        if (WindRows.Forecast(WindRows.Forecast(s), w) is not { } forecast) return;
        WindVector off = new(w.Wind.EastMps - forecast.EastMps, w.Wind.NorthMps - forecast.NorthMps);
        cell.Text(0, 0, $"{fig.Bearing(forecast.FromDeg)} {fig.Speed(forecast.SpeedMps)}", Ink.Quiet);
        cell.Right(0, fig.Speed(off.SpeedMps), off.SpeedMps > Math.Max(3, 3 * w.SigmaMps) ? Ink.Caution : Ink.Plain);
    }

    private static string Span(WindRow w, Figures fig)
    {
        string top = fig.AxisHeight(w.TopM, 1), bottom = fig.AxisHeight(w.BottomM, 1);
        return bottom[..bottom.IndexOf(' ', StringComparison.Ordinal)] + "–" + top;
    }
}
