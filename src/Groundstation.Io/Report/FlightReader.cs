using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Terrain;

namespace Groundstation.Io.Report;

/// <summary>
/// Reads a flight by replaying its recording through a station in memory: so a folder that was cut off and another
/// receiver's log are told like any other, and nothing is written meanwhile.
/// </summary>
public static class FlightReader
{
    /// <summary>Reads a flight.</summary>
    /// <param name="path">A flight folder, a folder with a <c>flight.nmea</c>, or a recording.</param>
    /// <param name="planFile">The plan; null: the <c>plan.toml</c> beside the recording, else the defaults.</param>
    /// <param name="found">Where the payload was found, if the team tells.</param>
    /// <param name="progress">Told the share read so far, 0 to 1, now and then.</param>
    /// <param name="stop">Ends the work.</param>
    /// <exception cref="UserErrorException">There is no recording, or it or the plan cannot be read.</exception>
    public static FlightRecord Read(string path, string? planFile, GeoPoint? found, Action<double> progress,
        CancellationToken stop)
    {
        RecordingPath recording = RecordingPath.Find(path);
        planFile ??= recording.PlanBeside;
        FlightPlan plan = planFile is null ? FlightPlan.Default : PlanReader.Read(planFile);
        using RecordingReader reader = RecordingReader.Open(recording.File);
        if (reader.Seed is { } seed && !plan.Stated.Contains("flight.seed"))
            plan = plan with { Seed = seed };
        HgtTerrain? terrain = plan.TerrainFolder is { } tiles ? HgtTerrain.Open(tiles) : null;
        RecordLog log = new();
        Station station = new(plan, log, terrain is null ? null : place => terrain.HeightAt(place)?.Metres);
        List<ActRow> acts = [];
        long told = 0, events = 0;
        bool closed = false;
        while (reader.Read(out RecordedEvent e))
        {
            stop.ThrowIfCancellationRequested();
            closed = e.Kind == RecordedKind.Ended;
            // The station's own housekeeping is nobody's act.
            if (e.Done is { Verb: not ("disk" or "clock-set") } act)
                acts.Add(new ActRow(e.At, act));
            e.ApplyTo(station);
            log.After(station);
            if (++events % 256 == 0 && reader.Position - told > reader.Length / 100)
            {
                told = reader.Position;
                progress(Math.Min(1, told / (double)Math.Max(1, reader.Length)));
            }
        }

        log.Finish(station);
        return new FlightRecord
        {
            Plan = plan,
            PlanFile = planFile is null || plan.Stated.IsEmpty ? null : Path.GetFileName(planFile),
            Recording = Path.GetFileName(recording.File),
            Notes = [.. Notes(reader, closed)],
            Epochs = [.. log.Epochs],
            Chase = [.. log.Chase],
            Winds = [.. log.Winds],
            Payload = [.. log.Payload],
            Landings = [.. log.Landings],
            Alarms = [.. log.Alarms],
            Callouts = [.. log.Callouts],
            Acts = [.. acts],
            Last = station.Snapshot(),
            Found = found,
        };
    }

    private static IEnumerable<string> Notes(RecordingReader reader, bool closed)
    {
        yield return reader.IsOwn ? "Recorded by this station; times as recorded."
            : $"Recorded by another program; {reader.TimeBasis}.";
        if (!reader.IsTimed)
            yield return "Nothing in the recording tells the time: durations and rates mean nothing.";
        if (reader.TornEnd || (reader.IsOwn && !closed))
        {
            yield return reader.TornEnd ? "The recording is cut off: its last line is torn."
                : "The recording was not closed: the station was stopped, or the file is cut off. "
                    + "What was heard before is whole.";
        }

        if (reader.Damaged > 0)
            yield return $"{reader.Damaged} of the station's own lines in the recording are damaged.";
        if (reader.Comments > 0)
            yield return $"{reader.Comments} comment lines passed over.";
    }
}
