using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Terrain;

namespace Groundstation.Io.Sessions;

/// <summary>
/// The station with its recording and its newest snapshot. All of it runs on one thread, the session's; only
/// <see cref="Newest"/> is read by others.
/// </summary>
internal sealed class StationRunner
{
    private readonly Station _station;
    private readonly FlightFolder? _folder;
    private readonly TimeProvider _time;
    private readonly TimeSpan? _publishEvery;
    private long _published;
    private bool _changed = true;
    private Snapshot _newest;

    /// <summary>A station at the start of a flight.</summary>
    /// <param name="plan">The plan in force.</param>
    /// <param name="folder">Takes recording and logs; null: none are written.</param>
    /// <param name="time">For the pace of publishing.</param>
    /// <param name="publishEvery">Shortest time between two snapshots; null: only when asked for.</param>
    public StationRunner(FlightPlan plan, FlightFolder? folder, TimeProvider time, TimeSpan? publishEvery)
    {
        Totals = new FlightTotals(folder?.Log);
        HgtTerrain? terrain = plan.TerrainFolder is { } tiles ? HgtTerrain.Open(tiles) : null;
        _station = new Station(plan, Totals, terrain is null ? null : place => terrain.HeightAt(place)?.Metres);
        _folder = folder;
        _time = time;
        _publishEvery = publishEvery;
        _newest = _station.Snapshot();
        _published = time.GetTimestamp();
    }

    /// <summary>What the logs got.</summary>
    public FlightTotals Totals { get; }

    /// <summary>Arrival time of the newest event.</summary>
    public Instant Last { get; private set; }

    /// <summary>Told each new snapshot, on the session's thread; null: nobody.</summary>
    public Action? Published { get; set; }

    /// <summary>The newest snapshot; any thread may read it.</summary>
    public Snapshot Newest => Volatile.Read(ref _newest);

    /// <summary>Records an event, then hands it to the station.</summary>
    public void Handle(in RecordedEvent e)
    {
        _folder?.Record(e);
        Apply(e);
    }

    /// <summary>Hands an event to the station that is in the recording already.</summary>
    public void Apply(in RecordedEvent e)
    {
        e.ApplyTo(_station);
        Last = e.At;
        _changed = true;
    }

    /// <summary>
    /// Goes on with the flight that a folder holds: replays its recording, so that the station stands where it stood, and
    /// its logs with it.
    /// </summary>
    /// <returns>What there is to tell.</returns>
    public string GoOn(FlightFolder folder)
    {
        using RecordingReader reader = RecordingReader.Open(folder.RecordingPath);
        while (reader.Read(out RecordedEvent e))
            Apply(e);
        folder.Rebuilt();
        Publish();
        return $"{folder.Path}: the flight goes on from {Last}";
    }

    /// <summary>
    /// Moves the station's time on without an event: it works through whole seconds as the next event would make it do
    /// anyway, so this leaves no trace in logs and needs no record.
    /// </summary>
    public void TickTo(Instant at)
    {
        if (at <= Last)
            return;
        _station.Tick(at);
        Last = at;
        _changed = true;
    }

    /// <summary>Time until a snapshot is due; null when nothing has changed or none is wanted.</summary>
    public TimeSpan? PublishDue()
    {
        if (_publishEvery is not { } every || !_changed)
            return null;
        TimeSpan left = every - _time.GetElapsedTime(_published);
        return left > TimeSpan.Zero ? left : TimeSpan.Zero;
    }

    /// <summary>Makes a snapshot if one is due.</summary>
    public void PublishIfDue()
    {
        if (PublishDue() == TimeSpan.Zero)
            Publish();
    }

    /// <summary>Makes a snapshot now.</summary>
    public void Publish()
    {
        Volatile.Write(ref _newest, _station.Snapshot());
        _published = _time.GetTimestamp();
        _changed = false;
        Published?.Invoke();
    }
}
