using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;

namespace Groundstation.Core.Simulation;

/// <summary>The chase car and what its own receiver says, once a second.</summary>
public sealed class ChaseCar(Scenario scenario)
{
    private readonly EpochSentences _sentences = new(scenario with
    {
        Receiver = new SimulatedReceiver { Talker = "GP", Sentences = ["GGA", "RMC"], SlowSentences = [] },
    });

    /// <summary>Its sentences at a time after launch, s, without line ends.</summary>
    public IReadOnlyList<string> Say(double timeS)
    {
        GeoPoint here = At(timeS);
        (double east, double north) = LocalFrame.Between(At(timeS - 1), here, 0);
        TrueState state = new(timeS, here, scenario.LandingGround, 0, default, Phase.Landed);
        ReceiverEpoch epoch = new(scenario.LaunchUtc.PlusSeconds(timeS), true, here, scenario.LandingGround,
            new WindVector(east, north), 9, 0.9, 1.4);
        List<string> said = [];
        _sentences.Say(new SimulatedEpoch(state, epoch, null, Reception.Heard, []), said);
        return said;
    }

    private GeoPoint At(double timeS)
    {
        var way = scenario.Ground.Chase;
        int next = 0;
        while (next < way.Length && way[next].AtS <= timeS) next++;
        if (next == 0) return way[0].Position;
        if (next == way.Length) return way[^1].Position;
        (ChasePoint from, ChasePoint to) = (way[next - 1], way[next]);
        double share = (timeS - from.AtS) / (to.AtS - from.AtS);
        GeodesicLine line = Geodesic.Inverse(from.Position, to.Position);
        return Geodesic.Direct(from.Position, line.AzimuthDeg, share * line.DistanceM);
    }
}
