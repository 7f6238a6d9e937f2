using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;
using Xunit;

namespace Groundstation.Core.Tests.Simulation;

public class WindFieldTests
{
    [Fact]
    public void Between_levels_both_components_are_linear_and_beyond_they_stay()
    {
        WindField field = new(Flights.Plain.Air, 400, 9000, 0, new SeededRandom(1));
        var low = Flights.Plain.Air.Winds[0].Wind;
        var middle = Flights.Plain.Air.Winds[1].Wind;
        Assert.Equal((low.EastMps + middle.EastMps) / 2, field.At(2750, 0).EastMps, 1e-12);
        Assert.Equal(low, field.At(100, 0));
        Assert.Equal(Flights.Plain.Air.Winds[2].Wind, field.At(40_000, 0));
        Assert.Equal(middle.NorthMps, field.At(5000, 0).NorthMps, 1e-12);
    }

    // Expectation over 4000 independent fields; 3 % is four standard errors of a variance.
    [Fact]
    public void The_slow_change_has_the_spread_and_the_correlations_that_it_should()
    {
        SimulatedAir air = new() { ChangeMps = 2, ChangeHeightM = 1500, ChangeS = 10_800 };
        double variance = 0, height = 0, time = 0, cross = 0;
        const int Fields = 4000;
        for (ulong seed = 0; seed < Fields; seed++)
        {
            WindField field = new(air, 0, 6000, 0, new SeededRandom(seed));
            var here = field.At(3000, 0);
            var above = field.At(4500, 0);
            var later = field.At(3000, 5400);
            variance += here.EastMps * here.EastMps;
            height += here.EastMps * above.EastMps;
            time += here.EastMps * later.EastMps;
            cross += here.EastMps * here.NorthMps;
        }

        Assert.Equal(4, variance / Fields, 0.36);
        Assert.Equal(4 * Math.Exp(-1), height / Fields, 0.3);
        Assert.Equal(4 * Math.Exp(-0.5), time / Fields, 0.33);
        Assert.Equal(0, cross / Fields, 0.27);
    }

    [Fact]
    public void Levels_out_of_order_are_refused()
    {
        SimulatedAir air = new() { Winds = [new(new(2000), default), new(new(1000), default)] };
        Assert.Throws<ArgumentException>(() => new WindField(air, 0, 1, 0, new SeededRandom(1)));
    }
}
