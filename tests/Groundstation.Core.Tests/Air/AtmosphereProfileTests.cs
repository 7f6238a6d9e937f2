using Groundstation.Core.Air;
using Xunit;

namespace Groundstation.Core.Tests.Air;

public class AtmosphereProfileTests
{
    [Theory]
    [InlineData(8)]
    [InlineData(-8)]
    public void A_warmer_or_colder_column_stays_in_hydrostatic_balance(double offsetK)
    {
        AtmosphereProfile air = new(offsetK);
        for (double z = 50; z < 45_000; z += 250)
        {
            double slope = (air.PressurePa(z + 5) - air.PressurePa(z - 5)) / 10;
            double weight = -air.DensityKgM3(z) * AtmosphereProfile.Gravity(z);
            Assert.Equal(1, slope / weight, 1e-6);
            Assert.Equal(StandardAtmosphere.TemperatureK(z) + offsetK, air.TemperatureK(z), 1e-9);
        }
    }

    [Fact]
    public void A_warm_column_is_thinner_below_and_denser_aloft()
    {
        AtmosphereProfile warm = new(8);
        Assert.True(warm.DensityKgM3(0) < StandardAtmosphere.DensityKgM3(0));
        Assert.True(warm.DensityKgM3(25_000) > StandardAtmosphere.DensityKgM3(25_000));
    }

    [Fact]
    public void Pressure_altitude_is_the_inverse_of_pressure_at_all_heights()
    {
        AtmosphereProfile air = new(-5, 99_000);
        for (double z = -4000; z < 85_000; z += 613)
            Assert.Equal(z, air.HeightFromPressure(air.PressurePa(z)), 1e-5);
    }

    [Fact]
    public void Far_outside_its_range_the_column_stays_positive_and_finite()
    {
        foreach (double z in (double[])[-1e7, -5000, 100_000, 1e6])
        {
            Assert.True(StandardAtmosphere.DensityKgM3(z) is > 0 and < 1e10, $"{z} m");
            Assert.True(StandardAtmosphere.TemperatureK(z) is > 100 and < 1000, $"{z} m");
        }
    }

    [Fact]
    public void Fall_factor_is_the_ratio_of_terminal_speeds()
    {
        foreach (double z in (double[])[0, 5_000, 11_500, 25_000, 35_000])
        {
            double expected = Math.Sqrt(1.225 / StandardAtmosphere.DensityKgM3(z)
                * StandardAtmosphere.Gravity(z) / 9.80665);
            Assert.Equal(expected, StandardAtmosphere.Table.FallFactor(z), expected * 1e-5);
        }
    }
}
