using Groundstation.Core.Air;
using Groundstation.Core.Flight;
using Xunit;

namespace Groundstation.Core.Tests.Flight;

public class ColumnAndRateTests
{
    [Fact]
    public void The_column_tells_the_wind_it_drifted_with()
    {
        Flown flown = new Flown { Wind = new(10, -4) }.Stand(30).Climb(6000);
        foreach (double z in (double[])[500, 2500, 5500])
        {
            WindVector wind = flown.Tracker.Winds.At(z);
            Assert.Equal(10, wind.EastMps, 0.4);
            Assert.Equal(-4, wind.NorthMps, 0.4);
        }
    }

    [Fact]
    public void Spread_is_small_where_measured_and_grows_with_age()
    {
        Flown flown = new Flown().Stand(30).Climb(3000);
        double young = Sigma(flown, 2000), above = Sigma(flown, 12_000);
        flown.Climb(20_000);
        double old = Sigma(flown, 2000);
        Assert.True(young < 0.6 && above > 5 && old > young + 0.2, $"{young} {above} {old}");
    }

    [Fact]
    public void A_change_met_on_the_way_down_informs_the_layers_below()
    {
        Flown flown = new Flown { Wind = new(10, 0) }.Stand(30).Climb(9000);
        flown.Wind = new(13, 0);
        flown.Fall(3000);
        double near = flown.Tracker.Winds.At(2700).EastMps, far = flown.Tracker.Winds.At(500).EastMps;
        Assert.True(near > 11 && near > far && far < 12.5, $"{near} {far}");
    }

    [Fact]
    public void Where_winds_were_found_changed_the_layers_below_are_trusted_less()
    {
        double Below(double changeMps)
        {
            Flown flown = new Flown { Wind = new(10, 0) }.Stand(30).Climb(20_000);
            // To and fro every 1.5 km, as changes of a wind are.
            for (double z = 18_500; z >= 5000; z -= 1500)
            {
                flown.Wind = new(10 + changeMps * Math.Sin(z), changeMps * Math.Cos(z));
                flown.Fall(z);
            }
            return Sigma(flown, 2000);
        }
        Assert.True(Below(4) > 1.5 * Below(1), $"{Below(4)} {Below(1)}");
    }

    [Fact]
    public void A_calm_season_is_taken_for_calm_above_the_balloon_too()
    {
        double calm = Sigma(new Flown { Wind = new(2, 1) }.Stand(30).Climb(15_000), 22_000);
        double stormy = Sigma(new Flown { Wind = new(35, -20) }.Stand(30).Climb(15_000), 22_000);
        Assert.True(stormy > 1.3 * calm, $"{stormy} {calm}");
    }

    [Theory]
    [InlineData(3.5, -8)]
    [InlineData(6, 0)]
    [InlineData(8, 8)]
    public void The_fall_is_known_to_some_percent_from_its_heights_alone(double seaLevelMps, double kelvin)
    {
        Flown flown = new Flown().Stand(30).Climb(20_000).Fall(8000, seaLevelMps, kelvin);
        Assert.True(flown.Tracker.Descent.Measured);
        var squares = new double[Levels.Count];
        flown.Tracker.Descent.FillSpeedSquared(squares, 8000);
        var truth = new DensityTable(new AtmosphereProfile(kelvin));
        foreach (double z in (double[])[8000, 3000, 500])
        {
            double ratio = Math.Sqrt(Levels.At(squares, z)) / (seaLevelMps * truth.FallFactor(z));
            Assert.InRange(ratio, 0.96, 1.04);
        }
    }

    [Fact]
    public void A_canopy_that_tangles_is_noticed_and_followed()
    {
        Flown flown = new Flown().Stand(30).Climb(15_000).Fall(9000, 5);
        Assert.Equal(0, flown.Tracker.Descent.CanopyChanges);
        flown.Fall(6000, 8.5);
        Assert.True(flown.Tracker.Descent.CanopyChanges >= 1);
        Assert.InRange(flown.Tracker.State().DescentRateSeaLevelMps, 8, 9);
    }

    [Theory]
    [InlineData(0.6)]
    [InlineData(1.2)]
    public void An_unsteady_fall_is_not_taken_for_a_changing_canopy(double bobMps)
    {
        Flown flown = new Flown { BobMps = bobMps }.Stand(30).Climb(20_000);
        foreach (double down in (double[])[12_000, 6000, 3000])
        {
            flown.Fall(down, 5);
            Assert.Equal(0, flown.Tracker.Descent.CanopyChanges);
            FlightState state = flown.Tracker.State();
            Assert.InRange(Math.Log(state.DescentRateSeaLevelMps / 5) / state.DescentRateLnSigma, -2.5, 2.5);
            Assert.InRange(state.DescentRateSeaLevelMps, 4.3, 5.8);
        }
    }

    [Fact]
    public void Lying_on_the_ground_is_no_slow_fall()
    {
        Flown flown = new Flown().Stand(30).Climb(8000).Fall(100, 6).Stand(300);
        Assert.InRange(flown.Tracker.State().DescentRateSeaLevelMps, 5.7, 6.3);
    }

    [Fact]
    public void The_ascent_rate_is_followed()
    {
        Flown flown = new Flown().Stand(30).Climb(6000, 6.5);
        Assert.Equal(6.5, flown.Tracker.Ascent.Mps, 0.3);
        Assert.True(flown.Tracker.Ascent.LnSigma(20_000) > flown.Tracker.Ascent.LnSigma(1000));
    }

    private static double Sigma(Flown flown, double heightM) => flown.Tracker.Winds.Layers()
        .First(l => l.Bottom.Metres <= heightM && heightM < l.Top.Metres).SigmaMps;
}
