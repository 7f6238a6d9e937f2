using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core;
using Groundstation.Core.Fixes;
using Groundstation.Core.Receive;

namespace Groundstation.Console.Screens.Panels;

/// <summary>One row a source: link, fixes a second, satellites, share of bad lines.</summary>
internal static class ReceiverPanel
{
    /// <summary>Paints it; returns the rows it took.</summary>
    public static int Draw(Pane pane, Snapshot s)
    {
        Rows rows = new(pane, 9);
        long total = s.FixCounts.Believed + s.FixCounts.Refused;
        rows.Title("Receivers", total == 0 ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{s.FixCounts.Believed} believed, {s.FixCounts.Refused} refused"));
        foreach (SourceId source in Sources(s))
        {
            ReceiverHealth? health = s.Receivers.FirstOrDefault(r => r.Source == source);
            LinkStatus? link = s.Links.FirstOrDefault(l => l.Source == source);
            (string text, Ink ink) = Words(s, link, health);
            rows.Line(source.Name, text, ink);
        }

        if (rows.Y == 1) rows.Text("no source yet", Ink.Quiet);
        return rows.Y;
    }

    /// <summary>All sources with a link or a health record, in their order.</summary>
    public static List<SourceId> Sources(Snapshot s) =>
        [.. s.Receivers.Select(r => r.Source).Concat(s.Links.Select(l => l.Source)).Distinct()];

    /// <summary>How a source does, in one line, the trouble first.</summary>
    public static (string Text, Ink Ink) Words(Snapshot s, LinkStatus? link, ReceiverHealth? health)
    {
        if (link is { State: not LinkState.Up })
        {
            string why = link.Why.Length > 0 ? ": " + link.Why : "";
            if (link.State == LinkState.Ended) return ("ended" + why, Ink.Advisory);
            return ($"{Standing.LinkWord(link.State)} {Figures.Span(s.Arrival.SecondsSince(link.Since))}{why}",
                Ink.Caution);
        }

        if (health is null) return ("link up, nothing heard", Ink.Advisory);
        if (health.LineFault.Length > 0) return (health.LineFault, Ink.Caution);
        double quiet = health.LastByte is { } at ? s.Arrival.SecondsSince(at) : 0;
        if (quiet > s.Plan.Alarms.NoBytesS) return ($"SILENT {Figures.Span(quiet)}", Ink.Caution);
        // Epochs come, but none that can be believed: sentences a second are no fixes a second.
        bool old = health.LastBelieved is { } good ? s.Arrival.SecondsSince(good) > s.NotHeardAfterS : health.Refused > 0;
        if (old && health.SentencesPerSecond > 0)
            return (string.Create(CultureInfo.InvariantCulture,
                $"heard, NO GOOD FIX  {health.RejectedShare * 100:F0} % bad"), Ink.Caution);
        string satellites = health.SatellitesUsed is { } n ? $"{n} sat" : "no sat";
        bool bad = health.RejectedShare > s.Plan.Alarms.RejectedShare;
        string share = string.Create(CultureInfo.InvariantCulture, $"{health.RejectedShare * 100:F0} % bad");
        string fixes = string.Create(CultureInfo.InvariantCulture, $"{health.FixesPerSecond:F1} fix/s  {satellites}");
        // The trouble first: the panel cuts what has no room.
        return bad ? ($"BAD LINK {share}  {fixes}", Ink.Caution) : ($"up  {fixes}  {share}", Ink.Good);
    }
}
