using System.Collections.Concurrent;
using Groundstation.Console.Commands;
using Groundstation.Core;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;

namespace Groundstation.Console.Tests;

/// <summary>The bundled flights, stopped at the moments at which an operator looks.</summary>
internal static class BundledFlights
{
    private static readonly ConcurrentDictionary<string, Lazy<Dictionary<string, Snapshot>>> Flown = new();

    /// <summary>Moments of each flight, seconds after its first line.</summary>
    public static IReadOnlyList<(string Flight, string Moment, double Seconds)> Moments { get; } =
    [
        ("clean", "pad", 60), ("clean", "ascent", 2600), ("clean", "burst", 5490), ("clean", "descent", 6900),
        ("clean", "landed", 8250),
        ("silent-descent", "silent", 7200), ("silent-descent", "long silent", 9000),
        ("altitude-limit", "above the limit", 4200), ("altitude-limit", "heard again", 5700),
    ];

    /// <summary>The snapshot of one of <see cref="Moments"/>; each flight is flown once.</summary>
    public static Snapshot At(string flight, string moment) =>
        Flown.GetOrAdd(flight, f => new(() => Fly(f))).Value[moment];

    /// <summary>A file of the repository's recordings.</summary>
    public static string File(string flight, string name)
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !System.IO.File.Exists(Path.Combine(at.FullName, "groundstation.sln"))) at = at.Parent;
        return Path.Combine(at!.FullName, "recordings", flight, name);
    }

    private static Dictionary<string, Snapshot> Fly(string flight)
    {
        using RecordingReader reader = RecordingReader.Open(File(flight, "flight.nmea"));
        Station station = new(PlanReader.Read(File(flight, "plan.toml")), new NoLog());
        Queue<(string Moment, double Seconds)> due = new(Moments.Where(m => m.Flight == flight)
            .Select(m => (m.Moment, m.Seconds)));
        Dictionary<string, Snapshot> taken = [];
        Instant? start = null;
        while (due.Count > 0 && reader.Read(out RecordedEvent next))
        {
            start ??= next.At;
            while (due.TryPeek(out (string Moment, double Seconds) d) && next.At.SecondsSince(start.Value) > d.Seconds)
                taken[due.Dequeue().Moment] = station.Snapshot();
            next.ApplyTo(station);
        }

        while (due.TryDequeue(out (string Moment, double Seconds) last)) taken[last.Moment] = station.Snapshot();
        return taken;
    }
}
