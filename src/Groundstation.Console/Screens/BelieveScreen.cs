using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Screens.Panels;
using Groundstation.Core;
using Groundstation.Core.Fixes;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Console.Screens;

/// <summary>
/// Can I believe it? Receivers, satellites, refused fixes with their reasons, raw lines with their verdict.
/// </summary>
internal static class BelieveScreen
{
    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "Can I believe it?", string.Create(CultureInfo.InvariantCulture,
            $"{s.FixCounts.Believed} fixes believed, {s.FixCounts.Refused} refused"));
        int y = 1 + Receivers(pane.Below(1), s);
        bool side = pane.Width >= 110;
        int rest = pane.Height - y;
        if (side)
        {
            Pane right = pane.Part(pane.Width - 44, y, 44, rest);
            Satellites(right, s);
            Pane left = pane.Part(0, y, pane.Width - 46, rest);
            int refused = Math.Clamp(s.RecentRefused.Length + 2, 3, Math.Max(4, rest / 2));
            Refused(left.Part(0, 0, left.Width, refused), s, fig);
            Lines(left.Below(refused), s);
            return;
        }

        // Each list as high as what it holds, so that the lines received get what is left.
        int sky = Math.Clamp(2 + Best(s)?.InView.Length / 4 ?? 2, 2, 6);
        int low = Math.Clamp(s.RecentRefused.Length + 1, 2, Math.Max(3, (rest - sky) / 2));
        Satellites(pane.Part(0, y, pane.Width, sky), s);
        Refused(pane.Part(0, y + sky, pane.Width, low), s, fig);
        Lines(pane.Below(y + sky + low), s);
    }

    private static int Receivers(Pane pane, Snapshot s)
    {
        int y = 0;
        foreach (SourceId source in ReceiverPanel.Sources(s))
        {
            ReceiverHealth? health = s.Receivers.FirstOrDefault(r => r.Source == source);
            (string text, Ink ink) = ReceiverPanel.Words(s, s.Links.FirstOrDefault(l => l.Source == source), health);
            pane.Text(1, y, source.Name, Ink.Strong);
            pane.Text(10, y++, text, ink);
            if (health is null) continue;
            string rejected = string.Join(", ", health.Rejected.Where(r => r.Value > 0).Select(r =>
                string.Create(CultureInfo.InvariantCulture, $"{Reason(r.Key)} {r.Value}")));
            y += pane.Wrap(10, y, string.Create(CultureInfo.InvariantCulture,
                $"{health.SentencesPerSecond:F1} lines/s, accepted {health.Accepted}, rejected ")
                + (rejected.Length > 0 ? rejected : "none"), Ink.Quiet, 3);
        }

        if (y == 0) pane.Text(1, y++, "no source yet", Ink.Quiet);
        return y;
    }

    private static ReceiverHealth? Best(Snapshot s) => s.Receivers
        .Where(r => r.Source != SourceId.Chase && r.InView.Length > 0).MaxBy(r => r.LastBelieved?.Ticks ?? 0);

    private static void Satellites(Pane pane, Snapshot s)
    {
        ReceiverHealth? best = Best(s);
        pane.Title(0, "Satellites", best is null ? "" : string.Create(CultureInfo.InvariantCulture,
            $"{best.Source}, {best.SatellitesUsed ?? 0} of {best.InView.Length} used, dB-Hz"));
        if (best is null)
        {
            pane.Text(1, 1, "none told now", Ink.Quiet);
            return;
        }

        int rows = pane.Height - 1, wide = pane.Width >= 60 ? pane.Width / 4 : pane.Width;
        for (int i = 0; i < best.InView.Length; i++)
        {
            int column = i / rows * wide;
            if (column + wide > pane.Width) break;
            Satellite(pane.Part(column, 1 + i % rows, wide, 1), best.InView[i]);
        }
    }

    private static void Satellite(Pane cell, SatelliteInView sat)
    {
        cell.Part(0, 0, 4, 1).Right(0, sat.Id.ToString(CultureInfo.InvariantCulture));
        if (sat.SnrDb is not { } snr)
        {
            cell.Text(5, 0, "not tracked", Ink.Quiet);
            return;
        }

        // 55 dB-Hz is about the strongest a receiver tells; below 30 a fix begins to suffer.
        int room = Math.Max(1, cell.Width - 10), bar = Math.Clamp((int)Math.Round(snr / 55.0 * room), 0, room);
        Ink ink = snr >= 30 ? Ink.Good : Ink.Caution;
        for (int x = 0; x < bar; x++) cell.Put(5 + x, 0, snr >= 30 ? '█' : '▒', ink);
        cell.Part(0, 0, cell.Width - 1, 1).Right(0, snr.ToString(CultureInfo.InvariantCulture));
    }

    private static void Refused(Pane pane, Snapshot s, Figures fig)
    {
        pane.Title(0, "Refused fixes", "newest first");
        if (s.RecentRefused.Length == 0) pane.Text(1, 1, "none", Ink.Good);
        for (int i = 0, y = 1; i < s.RecentRefused.Length && y < pane.Height; i++)
        {
            Fix fix = s.RecentRefused[^(i + 1)];
            int x = pane.Text(1, y, Figures.Clock(fix.Utc), Ink.Quiet);
            x = pane.Text(x + 2, y, fix.Source.Name, Ink.Quiet);
            string why = fix.Detail.IsEmpty ? Words(fix.Refused) : fix.Detail.In(fig.Units);
            if (fix.Height is { } h) why += $" ({fig.Height(h.Metres)})";
            y += Math.Max(1, pane.Wrap(x + 2, y, why, Ink.Strong, 2));
        }
    }

    private static void Lines(Pane pane, Snapshot s)
    {
        pane.Title(0, "Lines received", "newest first");
        // Each source's own newest come together, whatever order the sources have.
        (SourceId Source, string Text, string Verdict)[] lines = [.. s.RecentLines.Reverse().GroupBy(l => l.Source)
            .SelectMany(g => g.Select((line, age) => (line, age))).OrderBy(l => l.age).Select(l => l.line)
            .Take(Math.Max(0, pane.Height - 1))];
        if (lines.Length == 0) pane.Text(1, 1, "none yet", Ink.Quiet);
        int width = lines.Select(l => Spaced(l.Verdict).Length).Append(8).Max();
        for (int i = 0; i < lines.Length; i++)
        {
            (SourceId source, string text, string verdict) = lines[i];
            bool good = verdict == "accepted";
            pane.Text(1, i + 1, source.Name, Ink.Quiet);
            pane.Text(9, i + 1, Spaced(verdict), good ? Ink.Good : Ink.Caution);
            pane.Text(10 + width, i + 1, text, good ? Ink.Plain : Ink.Strong);
        }
    }

    private static string Reason(RejectReason reason) => Spaced(reason.ToString());

    private static string Words(RefusalReasons reasons) => string.Join(", ",
        Enum.GetValues<RefusalReasons>().Where(r => r != RefusalReasons.None && reasons.HasFlag(r))
            .Select(r => Spaced(r.ToString())));

    /// <summary>A name such as <c>HorizontalJump</c> as words.</summary>
    private static string Spaced(string name) =>
        string.Concat(name.Select((c, i) =>
            (i > 0 && char.IsUpper(c) && name[i - 1] != ' ' ? " " : "") + char.ToLowerInvariant(c)));
}
