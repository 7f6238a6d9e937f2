using Groundstation.Core.Flight;
using OxyPlot;

namespace Groundstation.Io.Report.Plots;

/// <summary>The believed fixes cut where the phase changes and where nothing was heard, each in its colour.</summary>
internal static class Legs
{
    /// <summary>The pieces. Only the first of each kind has a title, so that a legend names it once.</summary>
    public static IEnumerable<(string? Title, OxyColor Color, IReadOnlyList<EpochRow> Rows)> Of(FlightFigures figures)
    {
        HashSet<string> named = [];
        HashSet<Core.Quantities.Instant> breaks = [.. figures.Gaps.Select(g => g.From.Utc)];
        List<EpochRow> rows = [];
        for (int i = 0; i < figures.Believed.Count; i++)
        {
            EpochRow row = figures.Believed[i];
            rows.Add(row);
            bool last = i + 1 == figures.Believed.Count, gap = breaks.Contains(row.Fix.Utc);
            if (!last && !gap && Kind(figures.Believed[i + 1].Phase) == Kind(row.Phase))
                continue;
            (string word, OxyColor color) = Kind(row.Phase);
            yield return (named.Add(word) ? word : null, color, rows);
            // The next piece begins where this one ends, unless nothing was heard between.
            rows = gap || last ? [] : [row];
        }
    }

    private static (string Word, OxyColor Color) Kind(Phase phase) => phase switch
    {
        Phase.Ascent => ("ascent", PlotStyle.Up),
        Phase.Float => ("float", PlotStyle.Chase),
        Phase.Descent => ("descent", PlotStyle.Down),
        _ => ("on the ground", PlotStyle.Ink),
    };
}
