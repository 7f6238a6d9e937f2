using static Groundstation.Core.Alarms.Words;

namespace Groundstation.Core.Alarms;

/// <summary>Alarms on the station's own house: what is kept, the room for it, the host's clock.</summary>
internal static class HouseRules
{
    public static IEnumerable<AlarmRule> All =>
    [
        new("storage", Severity.Caution, "To be mended soon: nothing is lost as long as the power stays.",
            "What is heard is kept in memory only: a power loss would lose it.",
            "Make space or put the disk back; the station writes on by itself.",
            static (i, _) => i.StorageTrouble.Length > 0 ? Text($"Cannot write {i.StorageTrouble}") : null),

        new("disk-low", Severity.Caution, "Space must be made soon, while there still is some.",
            "A full disk stops the recording.",
            "Delete or move what is not needed from that disk.",
            static (i, active) => i.DiskFreeMb is { } free && free < i.Plan.Alarms.DiskLowMb * (active ? 1.2 : 1)
                ? Text($"{free:F0} MB left on the flight folder's disk, limit {i.Plan.Alarms.DiskLowMb:F0} MB") : null,
            SuppressedBy: ["storage"]),

        new("host-clock", Severity.Advisory, "Ages and landing times do not depend on it; it may be set when there is time.",
            "Files and clocks in the room disagree with the times told to the chase team.",
            "Tell all times from this screen; set the computer's clock after the flight.",
            static (i, active) => i.HostAheadS is { } ahead
                && Math.Abs(ahead) > i.Plan.Alarms.ClockWrongS * (active ? 0.8 : 1)
                ? Text($"Host clock {Span(Math.Abs(ahead))} {(ahead > 0 ? "ahead of" : "behind")} the receiver's UTC")
                    + (ahead > 0 ? ", or fixes come that late" : "") : null,
            OnDelayS: 30, OffDelayS: 30),
    ];
}
