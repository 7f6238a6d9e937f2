using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using static Groundstation.Core.Alarms.Words;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on hearing the tracker: links, bytes, fixes. An explaining alarm comes before what it explains.</summary>
internal static class LinkRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("link-lost", Severity.Caution, "To be mended soon; the landing estimate goes on meanwhile.",
            "Nothing can be heard from that receiver.",
            "Check the cable and the receiver's power; the station reopens the link by itself.",
            static (i, _) => i.Links.Where(l => l.State is LinkState.Lost && l.Source != SourceId.Chase).ToList() is
                { Count: > 0 } lost
                ? new AlarmFinding(Saying.Join("; ", lost.Select(l => Text($"Link {l.Source} lost{Why(l.Why)}"))),
                    [.. lost.Select(l => l.Source.Name)]) : null,
            OnDelayS: 1, OffDelayS: 2),

        new("no-bytes", Severity.Caution, "To be mended soon; whether the tracker or the receiver is silent is not known yet.",
            "The receiver is silent: no position can come.",
            "Check antenna, cable, tuning and the receiver's power.",
            static (i, _) => i.ByteAgeS >= NoBytesS(i) ? Text($"No byte for {Span(i.ByteAgeS)}") : null,
            SuppressedBy: ["link-lost"]),

        new("no-sentences", Severity.Caution, "To be mended soon: a wrong setting lets nothing through.",
            "Bytes come from that receiver, but no position can be read in them.",
            "Name its baud rate (serial:DEVICE@BAUD) or use serial:auto; let it send NMEA 0183.",
            static (i, _) => i.Receivers.Where(r => r is { SentencesPerSecond: 0, LineFault.Length: > 0 }
                    && !i.Links.Any(l => l.Source == r.Source && l.State == LinkState.Lost)).ToList()
                is { Count: > 0 } mute
                ? new AlarmFinding(Saying.Join("; ", mute.Select(r =>
                    Text($"Bytes from {r.Source}, but no sentence: {r.LineFault.Split(" (")[0]}"))),
                    [.. mute.Select(r => r.Source.Name)]) : null,
            OnDelayS: 5, SuppressedBy: ["no-bytes"]),

        new("altitude-limit", Severity.Advisory, "Expected, and nothing can be done: it passes on the way down.",
            "Positions stop although the tracker is alive: it is above its receiver's limit.",
            "Wait; the landing estimate goes on. The fix should come back on the way down.",
            static (i, _) => i.AltitudeLimit is { } limit && i.Landing is not { HearAgainOverdue: true }
                ? Text($"No fix near the receiver's altitude limit of {HeightAloft(limit.Metres)}; sentences keep coming")
                    + Back(i) : null,
            OnDelayS: 10),

        new("no-fix", Severity.Warning, "The chase team acts on the newest estimate: it must be read to them at once.",
            "The balloon's place is the model's, not the tracker's.",
            "On the pad: hold the launch. In flight: read the landing estimate and its age to the chase team; try other "
                + "receivers, antenna up.",
            static (i, _) => i.HeardAgeS is { } age && age >= NoFixS(i) && i.Flight.Phase != Flight.Phase.Landed
                ? Text($"No believed fix for {Span(age)}{Come(i.Contact)}")
                : i.MarkedAgeS is { } marked && marked >= NoFixS(i)
                    ? Text($"Launch marked {Span(marked)} ago, and no believed fix since the start") : null,
            SuppressedBy: ["altitude-limit"]),

        new("stalled-fix", Severity.Caution, "To be seen soon: a position that looks alive is not.",
            "The position shown is old although sentences keep coming.",
            "Check the tracker's receiver; believe the model's place until the time runs again.",
            static (i, _) => i.EpochAgeS is { } age && age >= NoFixS(i) && i.ByteAgeS < NoBytesS(i)
                ? Text($"Sentences come, but no new time in them for {Span(age)}") : null,
            SuppressedBy: ["no-bytes", "no-sentences", "link-lost"]),

        new("bad-link", Severity.Caution, "To be mended soon, before the link fails.",
            "Sentences are lost; gaps follow.",
            "Check baud rate, antenna and interference; lower a squelch or turn the antenna.",
            static (i, active) => i.Receivers.FirstOrDefault(r => r.Source != SourceId.Chase
                    && r.SentencesPerSecond > 0 && r.RejectedShare >= i.Plan.Alarms.RejectedShare * (active ? 0.8 : 1)) is { } r
                ? new AlarmFinding(Text($"{r.RejectedShare * 100:F0} % of the lines from {r.Source} rejected over a minute")
                    + Fault(r.LineFault), r.Source.Name) : null,
            OnDelayS: 10, OffDelayS: 20, SuppressedBy: ["no-bytes", "link-lost"]),

        new("outliers", Severity.Caution, "Somebody must look soon, before a position is acted on.",
            "Fixes come, but cannot be believed.",
            "Look at the refused fixes and their reasons before trusting any position.",
            static (i, active) => i.RefusedInARow >= (active ? 1 : i.Plan.Alarms.OutliersInARow)
                ? Text($"{i.RefusedInARow} fixes in a row refused: {i.RefusedDetail}") : null,
            OffDelayS: 10, SuppressedBy: ["altitude-limit", "bad-link"]),

        new("wrong-date", Severity.Advisory, "Nothing needs doing in flight: the station keeps the right date by itself.",
            "Programs that go by that receiver's own date put the flight on another day.",
            "Go by the date on this screen; after the flight look for newer firmware for that receiver.",
            static (i, _) => i.NewestFix is { DateSentOff: { Ticks: not 0 } off } fix
                ? new AlarmFinding(Text($"Date from {fix.Source} is {Math.Abs(off.TotalDays):F0} days ")
                    + (off > TimeSpan.Zero ? "ahead" : "behind") + (fix.DateFrom == DateOrigin.ReceiverRolledOver
                        ? " (its week number has run over)" : "") + Text($"; taken as {fix.Utc.Date:yyyy-MM-dd}"),
                    fix.Source.Name) : null,
            OnDelayS: 10, OffDelayS: 20),
    ];

    // A tracker that sends every 30 s must not be called silent between two bursts: three of them must be missing.
    private static double NoFixS(AlarmInput i) => Math.Max(i.Plan.Alarms.NoFixS, 3 * i.EpochIntervalS);

    private static double NoBytesS(AlarmInput i) => Math.Max(i.Plan.Alarms.NoBytesS, 3 * i.EpochIntervalS);

    private static Saying Back(AlarmInput i) => i.Landing is { HearAgainUtc: { } utc, HearAgainAt: { } place }
        ? Text($"; back about {utc.ToDateTime():HH:mm} UTC near {place}") : "";

    private static string Come(Contact contact) => contact switch
    {
        Contact.Alive => "; sentences come without one",
        Contact.Stalled => "; sentences repeat an old one",
        _ => "",
    };

    private static string Why(string why) => why.Length == 0 ? "" : $": {why}";

    private static string Fault(string fault) => fault.Length == 0 ? "" : $" ({fault})";
}
