using System.Collections.Immutable;
using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Core;
using Groundstation.Core.Air;
using Groundstation.Core.Plan;

namespace Groundstation.Console.Screens;

/// <summary>What is the wind? The column as a table with bars and their spread, highest on top.</summary>
internal static class WindScreen
{
    /// <summary>Column where what a row rests on begins.</summary>
    private const int Basis = 47;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        ImmutableArray<ForecastLevel> forecast = s.Foretold;
        bool roomy = pane.Width >= 110;
        pane.Title(0, "What is the wind?", forecast.IsEmpty ? "no forecast in the plan"
            : roomy ? "forecast beside it" : "◇ forecast");
        List<WindRow> winds = WindRows.Of(s, pane.Height - 3);
        if (winds.Count == 0)
        {
            pane.Text(1, 2, "Nothing measured yet: the payload's drift will tell.");
            return;
        }

        if (WindRows.NothingKnown(s))
        {
            pane.Wrap(1, 2, "Nothing measured yet, and no forecast in the plan: from any side, with the strength that "
                + "a year's winds have. The payload's drift will tell.");
            return;
        }

        int words = pane.Width >= 140 ? 33 : roomy ? 16 : 6, behind = forecast.IsEmpty ? 1 : roomy ? 27 : 10;
        pane.Text(1, 1, "height", Ink.Quiet);
        pane.Text(18, 1, "from", Ink.Quiet);
        pane.Part(27, 1, 9, 1).Right(0, "speed", Ink.Quiet);
        pane.Part(37, 1, 9, 1).Right(0, "±", Ink.Quiet);
        pane.Text(Basis, 1, roomy ? "measured" : "by", Ink.Quiet);
        if (!forecast.IsEmpty) pane.Right(1, roomy ? "forecast, off by" : "off by", Ink.Quiet);
        double full = Ticks.FineNotBelow(winds.Max(w => w.Wind.SpeedMps + w.SpreadMps));
        for (int i = 0; i < winds.Count; i++)
        {
            WindRow w = winds[i];
            Pane row = pane.Part(0, i + 2, pane.Width, 1);
            Row(row, w, fig);
            Rests(row.Part(Basis, 0, words - 1, 1), w, s, words);
            WindVector? foretold = WindRows.Forecast(forecast, w);
            WindBars.Draw(row.Part(Basis + words, 0, pane.Width - Basis - words - behind, 1), w, full,
                foretold?.SpeedMps);
            if (foretold is { } f) Forecast(row.Part(pane.Width - behind + 1, 0, behind - 1, 1), w, f, fig, roomy);
        }

        string most = winds.Max(w => w.Layers) is var layers && layers > 1
            ? $"each row is the mean of {layers} layers" : "each row is one layer";
        pane.Text(1, pane.Height - 1, $"bars reach to {fig.Speed(full)}, ▒─ doubt; {most}", Ink.Quiet);
    }

    private static void Row(Pane row, WindRow w, Figures fig)
    {
        row.Part(0, 0, 14, 1).Right(0, Span(w, fig), w.HoldsBalloon ? Ink.Strong : Ink.Plain);
        row.Put(15, 0, w.HoldsBalloon ? '●' : ' ', Ink.Strong);
        if (w.Wind.SpeedMps >= 0.5)
        {
            row.Put(17, 0, Figures.Arrow(w.Wind.FromDeg + 180), Ink.Plain);
            // In ASCII a degree takes four cells: the point would run into the speed.
            row.Text(19, 0, fig.Ascii ? fig.Bearing(w.Wind.FromDeg) : fig.BearingWithPoint(w.Wind.FromDeg));
        }

        row.Part(27, 0, 9, 1).Right(0, fig.Speed(w.Wind.SpeedMps), w.Newest.Measured is null ? Ink.Plain : Ink.Strong);
        row.Part(37, 0, 9, 1).Right(0, fig.Speed(w.SpreadMps));
    }

    /// <summary>What the row rests on and how old that is, as wide as there is room.</summary>
    private static void Rests(Pane cell, WindRow w, Snapshot s, int room)
    {
        string age = w.Newest.Measured is { } at ? Figures.Span(s.Utc.SecondsSince(at)) + " ago " : "";
        string basis = WindRows.Basis(w.Newest.Basis);
        string text = room >= 30 ? age + basis : room >= 16 ? basis : WindRows.ShortBasis(w.Newest.Basis);
        cell.Text(0, 0, text, w.Newest.Measured is null ? Ink.Quiet : Ink.Plain);
    }

    private static void Forecast(Pane cell, WindRow w, WindVector forecast, Figures fig, bool roomy)
    {
        WindVector off = new(w.Wind.EastMps - forecast.EastMps, w.Wind.NorthMps - forecast.NorthMps);
        if (roomy) cell.Text(0, 0, $"{fig.Bearing(forecast.FromDeg)} {fig.Speed(forecast.SpeedMps)}", Ink.Quiet);
        if (w.Newest.Measured is null) return;
        cell.Right(0, fig.Speed(off.SpeedMps), off.SpeedMps > Math.Max(3, 1.5 * w.SpreadMps) ? Ink.Caution : Ink.Plain);
    }

    private static string Span(WindRow w, Figures fig)
    {
        string top = fig.AxisHeight(w.TopM, 1), bottom = fig.AxisHeight(w.BottomM, 1);
        return bottom[..bottom.IndexOf(' ', StringComparison.Ordinal)] + "–" + top;
    }
}
