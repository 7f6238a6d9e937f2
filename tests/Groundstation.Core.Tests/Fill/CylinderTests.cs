using Groundstation.Core.Fill;
using Xunit;

namespace Groundstation.Core.Tests.Fill;

/// <summary>What a cylinder holds and what is left in it.</summary>
public class CylinderTests
{
    private static readonly SiteAir Sea = SiteAir.Standard(new(0));
    private static readonly Cylinder Fifty = new(0.050, 200e5, 288.15);

    // 50 l at 200 bar hold 10 m³ by the ideal law at 1 bar; helium's Z of 1.0965 makes it 9.12, hydrogen's 1.1264 8.88.
    [Theory]
    [InlineData(GasKind.Helium, 9.12)]
    [InlineData(GasKind.Hydrogen, 8.88)]
    public void Contents_count_with_compressibility(GasKind gas, double m3) =>
        Assert.Equal(m3, new SiteAir(1e5, 288.15).VolumeM3(Fifty.AmountMol(gas)), 0.005);

    [Fact]
    public void What_is_taken_is_missing_afterwards()
    {
        double all = Fifty.AmountMol(GasKind.Helium), taken = all / 4;
        double left = Fifty.PressureAfterPa(GasKind.Helium, taken)!.Value;
        Assert.Equal(all - taken, (Fifty with { PressurePa = left }).AmountMol(GasKind.Helium), 1e-6);
        // Below three quarters of 200 bar: the compressed gas springs less the emptier the cylinder is.
        Assert.InRange(left, 145e5, 150e5);
        Assert.Null(Fifty.PressureAfterPa(GasKind.Helium, all * 1.001));
    }

    [Fact]
    public void A_cylinder_gives_gas_down_to_the_pressure_outside_only()
    {
        double usable = Fifty.UsableMol(GasKind.Helium, Sea);
        Assert.Equal(Sea.PressurePa, Fifty.PressureAfterPa(GasKind.Helium, usable)!.Value, 1);
        Assert.Equal(0, (Fifty with { PressurePa = 50_000 }).UsableMol(GasKind.Helium, Sea));
    }

    [Fact]
    public void Impure_helium_lifts_less()
    {
        BalloonFill pure = new(new(GasKind.Helium), Sea, 0.6, 1, 3), mixed = pure with { Gas = new(GasKind.Helium, 0.97) };
        Assert.Equal(0.97, mixed.GrossLiftKg / pure.GrossLiftKg, 1e-9);
    }

    [Fact]
    public void Too_little_gas_does_not_climb_and_too_much_bursts_at_once()
    {
        BalloonFill little = new(new(GasKind.Helium), Sea, 0.6, 1, 1);
        Assert.True(little.FreeLiftKg < 0);
        Assert.Equal(0, little.AscentRateMps);
        Assert.Null(Climb.Seconds(little, new(0), new(1000)));
        Assert.Null((little with { VolumeM3 = 200 }).BurstHeight(6));
    }
}
