using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Simulation;
using Xunit;

namespace Groundstation.Core.Tests.Simulation;

public class FlightSimulatorTests
{
    [Fact]
    public void The_same_scenario_gives_the_same_flight_and_another_seed_another()
    {
        Assert.Equal(Digest(Flights.Rough), Digest(Flights.Rough));
        Assert.NotEqual(Digest(Flights.Rough), Digest(Flights.Rough with { Seed = 2 }));

        static string Digest(Scenario scenario) => string.Join('\n',
            FlightSimulator.Run(scenario).Select(e => $"{e.Truth} {e.Receiver} {e.Sensors}"));
    }

    [Fact]
    public void A_noisier_receiver_does_not_change_the_true_flight()
    {
        SimulatedReceiver worse = Flights.Rough.Receiver with { HorizontalSigmaM = 20, RateHz = 5 };
        Scenario noisy = Flights.Rough with { Receiver = worse };
        FlightSimulator a = FlightSimulator.Start(Flights.Rough), b = FlightSimulator.Start(noisy);
        Assert.NotEmpty(a.Epochs().ToList());
        Assert.NotEmpty(b.Epochs().ToList());
        Assert.True(Geodesic.DistanceM(a.Flight.Landing!.Value.Position, b.Flight.Landing!.Value.Position) < 1);
    }

    [Fact]
    public void Phases_come_in_order_and_epochs_at_the_receivers_rate()
    {
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(Flights.Plain with { Receiver = new() { RateHz = 5 } })];
        Assert.Equal([Phase.Pad, Phase.Ascent, Phase.Descent, Phase.Landed],
            epochs.Select(e => e.Truth.Phase).Aggregate(new List<Phase>(), (list, p) =>
            {
                if (list.Count == 0 || list[^1] != p)
                    list.Add(p);
                return list;
            }));
        for (int i = 1; i < epochs.Count; i++)
            Assert.Equal(0.2, epochs[i].Receiver.Utc.SecondsSince(epochs[i - 1].Receiver.Utc), 1e-6);
        Assert.Equal(-30, epochs[0].Truth.TimeS);
    }

    [Fact]
    public void Receiver_errors_have_the_size_asked_for()
    {
        Scenario scenario = Flights.Plain with
        {
            PadS = 40_000,
            Receiver = new() { HorizontalSigmaM = 3, VerticalSigmaM = 6, CorrelationS = 20, JitterM = 1 },
        };
        double east = 0, up = 0;
        int n = 0;
        foreach (SimulatedEpoch e in FlightSimulator.Run(scenario).TakeWhile(e => e.Truth.Phase == Phase.Pad))
        {
            double off = LocalFrame.Between(e.Truth.Position, e.Receiver.Position, e.Truth.Height.Metres).EastM;
            east += off * off;
            up += Math.Pow(e.Receiver.Height.Metres - e.Truth.Height.Metres, 2);
            n++;
        }

        // About a thousand independent errors: 5 % of a variance is one standard error.
        Assert.Equal(10, east / n, 1.5);
        Assert.Equal(37, up / n, 5.5);
    }

    [Fact]
    public void Above_its_limit_the_receiver_has_no_fix_and_below_it_again_after_a_while()
    {
        Scenario scenario = Flights.Plain with
        {
            Receiver = new() { AltitudeLimit = new(6000), RegainS = 25 },
        };
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(scenario)];
        Assert.All(epochs.Where(e => e.Truth.Height.Metres > 6000), e => Assert.False(e.Receiver.HasFix));
        Assert.All(epochs.Where(e => e.Truth.Phase == Phase.Ascent && e.Truth.Height.Metres < 6000),
            e => Assert.True(e.Receiver.HasFix));
        double below = epochs.First(e => e.Truth.Phase == Phase.Descent && e.Truth.Height.Metres <= 6000).Truth.TimeS;
        double regained = epochs.First(e => e.Truth.Phase == Phase.Descent && e.Receiver.HasFix).Truth.TimeS;
        Assert.Equal(25, regained - below, 1.0);
    }

    [Fact]
    public void Satellites_and_dilution_are_those_of_an_open_sky()
    {
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(Flights.Plain)];
        Assert.All(epochs, e => Assert.InRange(e.Receiver.Satellites, 6, 12));
        Assert.All(epochs, e => Assert.InRange(e.Receiver.Hdop, 0.6, 2.5));
        Assert.All(epochs, e => Assert.True(e.Receiver.Vdop > e.Receiver.Hdop));
    }

    [Fact]
    public void Tumbling_after_burst_costs_satellites_for_a_moment()
    {
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(Flights.Rough)];
        double burst = epochs.First(e => e.Truth.Phase == Phase.Descent).Truth.TimeS;
        int Used(double after) => epochs.First(e => e.Truth.TimeS >= burst + after).Receiver.Satellites;
        Assert.True(Used(2) < Used(-20) - 2);
        Assert.InRange(Used(100) - Used(-20), -2, 2);
    }

    [Fact]
    public void Silences_fade_and_link_gaps_take_the_epochs_they_should()
    {
        Scenario scenario = Flights.Plain with
        {
            Radio = new()
            {
                FadeBelowM = 400,
                Silences = [new(FromS: 100, ForS: 50), new(DescentBelowM: 3000, ForS: 60)],
                LinkGaps = [new(200, 30)],
            },
        };
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(scenario)];
        Assert.Equal(110, epochs.Count(e => e.Reception == Reception.Silent));
        Assert.Equal(30, epochs.Count(e => e.Reception == Reception.NoLink));
        Assert.All(epochs.Where(e => e.Truth.TimeS is >= 100 and < 150),
            e => Assert.Equal(Reception.Silent, e.Reception));
        Assert.All(epochs.Where(e => e.Truth.Phase is Phase.Descent or Phase.Landed && e.Truth.Height.Metres < 620),
            e => Assert.Equal(Reception.Faded, e.Reception));
        Assert.Contains(epochs, e => e.Truth.Phase == Phase.Descent && e.Truth.Height.Metres is > 700 and < 820
            && e.Reception == Reception.Heard);
    }

    [Fact]
    public void Box_gets_cold_aloft_and_pressure_follows_the_air()
    {
        List<SimulatedEpoch> epochs = [.. FlightSimulator.Run(Flights.Plain)];
        SimulatedEpoch[] readings = [.. epochs.Where(e => e.Sensors is not null)];
        Assert.All(readings, e => Assert.InRange(
            e.Sensors!.Value.PressurePa - Core.Air.StandardAtmosphere.PressurePa(e.Truth.Height.Metres), -100, 100));
        Assert.True(readings.Min(e => e.Sensors!.Value.OutsideC) < -30);
        Assert.True(readings[^1].Sensors!.Value.BatteryV < readings[0].Sensors!.Value.BatteryV);
        Assert.Equal(10, readings[5].Truth.TimeS - readings[4].Truth.TimeS, 1e-9);
    }
}
