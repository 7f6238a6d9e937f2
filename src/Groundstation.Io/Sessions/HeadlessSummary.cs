using System.Globalization;
using System.Text;
using Groundstation.Core;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;
using Groundstation.Io.Folders;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Io.Sessions;

/// <summary>The short account that a session without a screen ends with: UTC, the plan's units, one thing a line.</summary>
public static class HeadlessSummary
{
    /// <summary>The text, lines ended by LF.</summary>
    public static string Text(SessionOutcome outcome)
    {
        StringBuilder text = new();
        Snapshot last = outcome.Last;
        FlightTotals totals = outcome.Totals;
        foreach (string note in outcome.Notes)
            Say($"{note}");
        Say($"fixes: {totals.Believed} believed, {totals.Refused} refused");
        Say($"lines rejected: {Rejected(last)}");
        Say($"phase: {Cells.Word(last.Flight.Phase)}{(last.Flight.PhaseHeard ? "" : " (not heard, by the model)")}");
        if (last.Flight.Burst is { } burst)
        {
            string turn = last.Flight.BurstHeard ? "" : "not heard; falling at ";
            Say($"burst: {turn}{Height(burst.Height.Metres)} at {burst.Utc} over {burst.Position}");
        }
        else if (last.Flight.Highest is { } highest)
            Say($"burst: none seen; highest {Height(highest.Height.Metres)} at {highest.Utc}");
        else
            Say($"burst: none seen");
        if (totals.Landing is { } landing)
            SayLanding(landing);
        else
            Say($"landing estimate: none");
        Say($"alarms raised: {Alarms(totals)}");
        if (totals.Callouts > 0)
            Say($"callouts: {totals.Callouts}");
        string files = string.Join(", ", outcome.Files);
        Say($"files: {(outcome.Folder is null ? "none written" : $"{outcome.Folder}: {files}")}");
        return text.ToString();

        void Say(Saying line) =>
            text.Append(UserErrorException.OneLine(line.In(last.Units ?? last.Plan.Units))).Append('\n');

        void SayLanding(LandingEstimate e)
        {
            Say($"landing estimate: {e.Position}, ground {Height(e.Ground.Metres)}, at {e.LandingUtc}");
            Say($"  made at {e.Utc} in {Cells.Word(e.Phase)}, method {Cells.Word(e.Method)}");
            Say($"  newest believed fix {e.HeardAgeS:F0} s old");
            Say($"  50 % area: {Area(e.Area50)}");
            Say($"  95 % area: {Area(e.Area95)}");
            if (e.LastWind is { } lastWind)
                Say($"  by the last wind alone: {lastWind}");
        }
    }

    private static Saying Area(SearchArea area) => $"{Extent(area.MajorM)} × {Extent(area.MinorM)} semi-axes, "
        + $"major axis {area.AzimuthDeg:F0}° true, {Measure.Area(area.AreaM2)}";

    private static string Rejected(Snapshot last)
    {
        SortedDictionary<RejectReason, long> counts = [];
        foreach (ReceiverHealth receiver in last.Receivers)
        {
            foreach ((RejectReason reason, long count) in receiver.Rejected)
            {
                if (count > 0)
                    counts[reason] = counts.GetValueOrDefault(reason) + count;
            }
        }

        return counts.Count == 0 ? "none" : string.Join(", ", counts.Select(c => string.Create(
            CultureInfo.InvariantCulture, $"{c.Value} {Cells.Word(c.Key)}")));
    }

    private static string Alarms(FlightTotals totals) => totals.Raised.Count == 0 ? "none" : string.Join(", ",
        totals.Raised.Select(a => string.Create(CultureInfo.InvariantCulture,
            $"{a.Id} ({Cells.Word(a.Severity)}{(a.Count > 1 ? $", {a.Count} times" : "")})")));
}
