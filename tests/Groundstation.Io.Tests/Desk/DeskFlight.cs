using System.Text.Json;
using System.Text.Json.Serialization;
using Groundstation.Core;
using Groundstation.Core.Air;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;
using Groundstation.Io.Desk;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Groundstation.Io.Sessions;

namespace Groundstation.Io.Tests.Desk;

/// <summary>A short flight with a silence in it, and a desk over it whose thread runs.</summary>
internal sealed class DeskFlight : IDisposable
{
    private static readonly JsonSerializerOptions _all = new()
    { IncludeFields = true, NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    private readonly TempFolder _temp = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly Thread _thread;

    public DeskFlight(double? rate = 1, FlightPlan? plan = null)
    {
        Scenario scenario = new()
        {
            LaunchUtc = Launch,
            LaunchSite = new(46.5, 7.9),
            LaunchHeight = new(500),
            LandingGround = new(420),
            PadS = 60,
            AfterLandingS = 60,
            Balloon = new() { BurstHeight = new(4000), SwingDeg = 3 },
            Air = new() { Winds = [new(new(500), WindVector.FromDirection(260, 8))], GustSurfaceMps = 1 },
            Receiver = new() { HorizontalSigmaM = 2, VerticalSigmaM = 3 },
            Radio = new() { DamagedShare = 0.01, Silences = [new(FromS: 300, ForS: 100)] },
        };
        Recording = SimulationWriter.Write(scenario, _temp["flight"]).Recording;
        Desk = new TrainingDesk(RecordingReader.Open(Recording), plan ?? FlightPlan.Default, rate, TimeProvider.System,
            TimeSpan.FromMilliseconds(20));
        Desk.TogglePause();
        _thread = new Thread(() => Desk.Run(_stop.Token));
        _thread.Start();
        Until(() => Desk.Status.Paused);
    }

    public static Instant Launch { get; } = Instant.FromUtc(new(2027, 5, 8), TimeSpan.FromHours(9));

    public string Recording { get; }

    public TrainingDesk Desk { get; }

    public string this[string name] => _temp[name];

    /// <summary>Everything in a snapshot as text.</summary>
    public static string Text(Snapshot snapshot) => JsonSerializer.Serialize(snapshot, _all);

    public Snapshot GoTo(string where)
    {
        int jumps = Desk.Status.Jumps;
        Desk.Seek(SeekTarget.Read(where)!);
        Until(() => Desk.Status.Jumps > jumps || Desk.Status.Said.Length > 0);
        Wait();
        return Desk.Newest;
    }

    /// <summary>Until what was asked so far has been done.</summary>
    public void Wait()
    {
        double? rate = Desk.Status.Rate;
        Desk.SetRate(1.5);
        Until(() => Desk.Status.Rate == 1.5);
        Desk.SetRate(rate);
        Until(() => Desk.Status.Rate == rate);
    }

    /// <summary>A station that was never anywhere else.</summary>
    public Snapshot Uninterrupted(Instant at, params ReadOnlySpan<RecordedEvent> acts)
    {
        List<RecordedEvent> events = [];
        using RecordingReader reader = RecordingReader.Open(Recording);
        while (reader.Read(out RecordedEvent e)) events.Add(e with { Bytes = e.Bytes.ToArray() });
        foreach (RecordedEvent act in acts) events.Insert(events.FindIndex(e => e.At > act.At), act);
        Station station = new(Desk.Plan, new FlightTotals(null));
        foreach (RecordedEvent e in events.TakeWhile(e => e.At <= at)) e.ApplyTo(station);
        station.Tick(at);
        return station.Snapshot();
    }

    public void Stop()
    {
        _stop.Cancel();
        _thread.Join();
    }

    public static void Until(Func<bool> done)
    {
        for (int i = 0; !done(); i++)
        {
            if (i == 3000) throw new TimeoutException("the desk did not do what was asked");
            Thread.Sleep(10);
        }
    }

    public void Dispose()
    {
        Stop();
        Desk.Dispose();
        _stop.Dispose();
        _temp.Dispose();
    }
}
