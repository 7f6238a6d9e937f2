using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Receive;

namespace Groundstation.Console.Screens;

/// <summary>
/// The two lines on top of every screen: time, mission time, phase, altitude, rate, age of the newest believed fix;
/// below them the worst alarm and what becomes of the recording.
/// </summary>
internal static class Standing
{
    /// <summary>Rows it takes, with the rule under it.</summary>
    public const int Height = 3;

    /// <summary>Paints it.</summary>
    public static void Draw(Pane pane, Snapshot? s, FeedStatus status, Figures fig, bool muted)
    {
        if (s is null)
        {
            pane.Text(1, 0, "Starting …", Ink.Strong);
        }
        else
        {
            Line(pane, s, fig);
            Alarm(pane.Part(0, 1, pane.Width - Session(pane, status, muted) - 2, 1), s, fig);
        }

        for (int x = 0; x < pane.Width; x++) pane.Put(x, 2, '━', Ink.Quiet);
    }

    /// <summary>Age of the newest believed fix as words and a figure, and how bad that is.</summary>
    public static (string Words, Ink Ink) Heard(Snapshot s)
    {
        if (s.HeardAgeS is not { } age) return ("NOTHING BELIEVED YET", Ink.Advisory);
        if (age > s.NotHeardAfterS)
            return (Shown.Hears(s).ToUpperInvariant() + " " + Figures.Span(age), Shown.OnGround(s) ? Ink.Advisory : Ink.Warning);
        // A third of the way to silence it is late: a word, for those who see no colour.
        return age > s.NotHeardAfterS / 3 ? ("LATE, heard " + Figures.Span(age) + " ago", Ink.Caution)
            : ("heard " + Figures.Span(age) + " ago", Ink.Good);
    }

    private static void Line(Pane pane, Snapshot s, Figures fig)
    {
        bool wide = pane.Width >= 110;
        string about = Shown.Silent(s) ? "~" : "";
        (string heard, Ink ink) = Heard(s);
        (string Text, Ink Ink)[] parts =
        [
            (wide ? $"{Figures.Date(s.Utc)} {Figures.Clock(s.Utc)} UTC" : Figures.Clock(s.Utc) + "Z", Ink.Plain),
            (Figures.Mission(Shown.Mission(s)), Ink.Plain),
            (Shown.PhaseWord(s), Ink.Strong),
            (Shown.Height(s) is { } h ? about + fig.Height(h) : "no altitude", Ink.Strong),
            (Shown.Rate(s) is { } v ? about + fig.Climb(v) : "no rate", Ink.Strong),
        ];
        // Single blanks where two would push the rate into the age: feet per minute in silence at 80 columns.
        int need = parts.Sum(p => p.Text.Length) + heard.Length;
        int gap = wide ? 4 : need + 2 * parts.Length <= pane.Width ? 2 : 1;
        int x = -gap;
        foreach ((string text, Ink of) in parts) x = pane.Text(x + gap, 0, text, of);
        // The age is what a silent tracker is judged by: it keeps its place at the edge whatever else is long.
        pane.Part(pane.Width - heard.Length - 1, 0, heard.Length + 1, 1).Fill(' ', Ink.Plain);
        pane.Right(0, heard, ink);
    }

    private static void Alarm(Pane row, Snapshot s, Figures fig)
    {
        // The worst of those not seen yet, within a severity the newest; when all are acknowledged, the worst.
        AlarmState? shown = s.Alarms.FirstOrDefault(a => a.Phase == AlarmPhase.Unacknowledged)
            ?? s.Alarms.FirstOrDefault(a => a.Phase == AlarmPhase.Acknowledged)
            ?? s.Alarms.FirstOrDefault(a => a.Standing);
        if (shown is null)
        {
            LinkStatus? link = s.Links.FirstOrDefault(l => l.State != LinkState.Up);
            row.Text(0, 0, link is null ? "no alarm" : $"no alarm; {link.Source} {LinkWord(link.State)}", Ink.Quiet);
            return;
        }

        int others = s.Alarms.Count(a => a.Standing) - 1;
        string count = others.ToString(CultureInfo.InvariantCulture);
        string more = others == 0 ? "" : row.Width < 80 ? $" (+{count})" : $" (and {count} more)";
        (string word, Ink ink) = Word(shown);
        row.Text(0, 0, word, ink);
        Pane rest = row.Part(word.Length + 1, 0, row.Width - word.Length - 1, 1);
        int room = rest.Width - more.Length;
        string cause = shown.Cause.In(fig.Units);
        if (cause.Length > room) cause = cause.Split(';')[0];
        if (cause.Length > room)
        {
            // At a blank: half a word, or half a figure, is worse than none; so is a figure without its unit.
            cause = Before(cause.LastIndexOf(' ', Math.Max(0, room - 1)));
            if (cause.Length > 0 && char.IsAsciiDigit(cause[^1])) cause = Before(cause.LastIndexOf(' '));
            cause += "…";
        }

        rest.Text(rest.Text(0, 0, cause, Ink.Strong), 0, more, Ink.Quiet);

        string Before(int blank) => cause[..Math.Max(0, blank)];
    }

    /// <summary>Recording or replay at the right edge; returns its width.</summary>
    private static int Session(Pane pane, FeedStatus status, bool muted)
    {
        (string text, Ink ink) = SessionWords(status);
        if (text.Length > pane.Width / 2) text = text[..(pane.Width / 2 - 1)] + "…";
        pane.Right(1, text, ink);
        if (!muted) return text.Length;
        const string Muted = "BELL MUTED";
        pane.Right(1, Muted, Ink.Advisory, pane.Width - text.Length - 2);
        return text.Length + 2 + Muted.Length;
    }

    private static (string, Ink) SessionWords(FeedStatus status)
    {
        if (status.Fault.Length > 0) return ("NOT RECORDING: " + status.Fault, Ink.Warning);
        if (status.IsReplay) return DeskWords.Of(status);
        if (status.Ended) return ("sources ended", Ink.Advisory);
        return status.Recording.Length > 0
            ? (string.Create(CultureInfo.InvariantCulture, $"{(status.Following ? "following" : "recording")}, {status.Lines} lines"), Ink.Good)
            : ("NOT RECORDING", Ink.Caution);
    }

    /// <summary>
    /// An alarm's word and ink: its severity in capitals until it is acknowledged, small and plain after that, and
    /// <c>over</c> when it went by itself before anybody had seen it.
    /// </summary>
    public static (string Word, Ink Ink) Word(AlarmState a) => a.Phase switch
    {
        AlarmPhase.Unacknowledged => (Word(a.Severity), InkOf(a.Severity)),
        AlarmPhase.Acknowledged => (Word(a.Severity).ToLowerInvariant(), Ink.Strong),
        AlarmPhase.ReturnedUnacknowledged => ("over", Ink.Advisory),
        _ => ("shelved", Ink.Quiet),
    };

    /// <summary>A severity's word, as it stands on every screen.</summary>
    public static string Word(Severity severity) => severity switch
    {
        Severity.Warning => "WARNING",
        Severity.Caution => "CAUTION",
        _ => "ADVISORY",
    };

    /// <summary>A severity's ink.</summary>
    public static Ink InkOf(Severity severity) => severity switch
    {
        Severity.Warning => Ink.Warning,
        Severity.Caution => Ink.Caution,
        _ => Ink.Advisory,
    };

    /// <summary>A link's state as a word.</summary>
    public static string LinkWord(LinkState state) => state switch
    {
        LinkState.Up => "link up",
        LinkState.Opening => "LINK OPENING",
        LinkState.Lost => "LINK LOST",
        _ => "ended",
    };
}
