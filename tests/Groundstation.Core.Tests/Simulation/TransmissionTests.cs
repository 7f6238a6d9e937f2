using Groundstation.Core.Earth;
using Groundstation.Core.Sentences;
using Groundstation.Core.Simulation;
using Groundstation.Core.Tests.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Simulation;

public class TransmissionTests
{
    private static List<ArrivedBytes> Carry(Scenario scenario)
    {
        Transmission way = new(scenario);
        List<ArrivedBytes> arrived = [];
        foreach (SimulatedEpoch epoch in FlightSimulator.Run(scenario))
            way.Carry(epoch, arrived);
        return arrived;
    }

    private static Collector Decode(IEnumerable<ArrivedBytes> arrived) =>
        Collector.Of([.. arrived.SelectMany(a => a.Bytes)]);

    [Theory]
    [InlineData("GP")]
    [InlineData("GN")]
    public void All_that_is_said_decodes_and_says_where_it_is(string talker)
    {
        Scenario scenario = Flights.Plain with
        {
            Receiver = new()
            {
                Talker = talker,
                Sentences = ["GGA", "RMC", "GLL", "ZDA"],
                GeoidSeparationM = 49.3,
            },
        };
        Collector decoded = Decode(Carry(scenario));
        Assert.Empty(decoded.Rejections);
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(scenario)];
        Gga[] fixes = [.. decoded.Messages.OfType<Gga>()];
        Assert.Equal(epochs.Count, fixes.Length);
        for (int i = 0; i < fixes.Length; i++)
        {
            GeoPoint said = new(fixes[i].LatitudeDeg!.Value, fixes[i].LongitudeDeg!.Value);
            Assert.True(Geodesic.DistanceM(said, epochs[i].Truth.Position) < 0.03);
            Assert.Equal(epochs[i].Truth.Height.Metres, fixes[i].AltitudeMslM!.Value, 0.051);
            Assert.Equal(49.3, fixes[i].GeoidSeparationM!.Value, 1e-9);
        }

        Rmc[] motions = [.. decoded.Messages.OfType<Rmc>()];
        Assert.Equal(epochs[900].Truth.Wind.SpeedMps, motions[900].SpeedMps!.Value, 0.01);
        Assert.Contains(decoded.Messages, m => m is Gsa { SatelliteCount: >= 6, Hdop: < 3 });
        Assert.Contains(decoded.Messages, m => m is Gsv { SatelliteCount: 4 });
    }

    [Theory]
    [InlineData(BeyondLimit.Blank)]
    [InlineData(BeyondLimit.Held)]
    public void Above_the_altitude_limit_sentences_go_on_and_say_that_there_is_no_fix(BeyondLimit beyond)
    {
        Scenario scenario = Flights.Plain with
        {
            Receiver = new() { AltitudeLimit = new(6000), Beyond = beyond },
        };
        Collector decoded = Decode(Carry(scenario));
        Assert.Empty(decoded.Rejections);
        Gga[] without = [.. decoded.Messages.OfType<Gga>().Where(g => g.Quality == 0)];
        Assert.True(without.Length > 500);
        Assert.All(without, g => Assert.Equal(beyond == BeyondLimit.Held, g.AltitudeMslM is not null));
    }

    [Fact]
    public void Southern_and_western_places_and_the_antimeridian_are_said_right()
    {
        Scenario scenario = Flights.Plain with { LaunchSite = new(-17, 179.98), PadS = 5 };
        Gga[] fixes = [.. Decode(Carry(scenario)).Messages.OfType<Gga>()];
        Assert.True(fixes[0].LongitudeDeg > 179.9);
        Assert.True(fixes[^1].LongitudeDeg < -179.7);
        Assert.All(fixes, f => Assert.True(f.LatitudeDeg < -16.8));
    }

    [Fact]
    public void Bytes_come_no_faster_than_the_line_carries_them()
    {
        List<ArrivedBytes> arrived = Carry(Flights.Rough with { Radio = new() { Baud = 4800 } });
        for (int i = 1; i < arrived.Count; i++)
        {
            double apart = arrived[i].At.SecondsSince(arrived[i - 1].At);
            Assert.True(apart >= arrived[i].Bytes.Length * 10 / 4800.0 - 1e-6, $"{i}: {apart} s");
        }
    }

    [Fact]
    public void The_damaged_share_is_refused()
    {
        Scenario scenario = Flights.Plain with { Radio = new() { DamagedShare = 0.05 } };
        List<ArrivedBytes> whole = Carry(Flights.Plain), damaged = Carry(scenario);
        Collector decoded = Decode(damaged);
        HashSet<string> said = [.. Decode(whole).Accepted];
        // An eight-bit sum lets one damage in 256 through: a hole of ",B,B" in an XDR is one that happened.
        Assert.InRange(decoded.Accepted.Distinct().Count(s => !said.Contains(s)), 0, 5);
        Assert.InRange(decoded.Rejections.Count / (double)whole.Count, 0.03, 0.08);
    }
}
