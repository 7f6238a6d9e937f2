using System.Globalization;
using System.Text;
using Groundstation.Core;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Scenarios;

/// <summary>What a simulated flight's ground adds to the recording: the chase car's receiver, the disk. Mutable.</summary>
internal sealed class SimulatedGroundEvents(Scenario scenario)
{
    private readonly ChaseCar _car = new(scenario);
    private LinkState? _chase;
    private double _saidS = double.NegativeInfinity;
    private int _disk;

    /// <summary>Goes on to a time after launch, s.</summary>
    public void Take(double timeS, SimulatedRecorder to)
    {
        for (; _disk < scenario.Ground.Disk.Length && scenario.Ground.Disk[_disk].FromS <= timeS; _disk++)
            Disk(timeS, scenario.Ground.Disk[_disk].FreeMb, to);
        if (scenario.Ground.Chase.IsEmpty) return;
        bool gap = scenario.Ground.ChaseGaps.Any(g => timeS >= g.FromS && timeS < g.FromS + g.ForS);
        LinkState state = gap ? LinkState.Lost : LinkState.Up;
        if (state != _chase)
        {
            _chase = state;
            to.Put(timeS, at => RecordedEvent.Linked(SourceId.Chase, at, state,
                gap ? "simulated: the device is gone" : ""));
        }

        if (gap || timeS < _saidS + 1 - 1e-6) return;
        _saidS = timeS;
        foreach (string sentence in _car.Say(timeS))
        {
            byte[] bytes = Encoding.ASCII.GetBytes(sentence + "\r\n");
            to.Put(timeS, at => RecordedEvent.Received(SourceId.Chase, at, bytes));
        }
    }

    private static void Disk(double timeS, double freeMb, SimulatedRecorder to)
    {
        string room = freeMb.ToString("F0", CultureInfo.InvariantCulture);
        string trouble = freeMb > 0 ? "" : "received.nmea: simulated: no space left (kept in memory)";
        to.Put(timeS, at => RecordedEvent.Acted(at, new OperatorAct("disk", room)));
        to.Put(timeS, at => RecordedEvent.Acted(at, new OperatorAct("storage", trouble)));
    }
}
