using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;
using Xunit;

namespace Groundstation.Published.Simulation;

/// <summary>
/// ref_descent_isa.csv, ref_landing_real_winds.csv: descents integrated with scipy 1.10.1 DOP853 and GeographicLib;
/// the simulator must fly them to the same place.
/// </summary>
public class ReferenceDescents
{
    // The references keep the equation's own accuracy; ours steps by 0.1 s through a density table.
    [Fact]
    public void Descents_through_the_standard_atmosphere_take_the_reference_time_and_speeds()
    {
        PublishedTable table = PublishedTable.Read("ref_descent_isa.csv");
        Assert.Equal(56, table.Rows.Count);
        foreach (var group in table.Rows.GroupBy(r => r["case"]))
        {
            PublishedRow first = group.First();
            TrueFlight flight = new(Drop(first, "z_start_m", new(45, 0)));
            double peak = 0;
            while (flight.Landing is null)
            {
                flight.Advance(0.1);
                peak = Math.Max(peak, -flight.Now.VerticalRateMps);
            }

            Dictionary<string, PublishedRow> rows = group.ToDictionary(r => r["quantity"]);
            Assert.Equal(rows["total_time_s_full_ode"].Number("value"), flight.Landing!.Value.TimeS, 0.02);
            Assert.Equal(rows["impact_speed_mps"].Number("value"), -flight.Landing.Value.VerticalRateMps, 0.0005);
            // The reference took its peak from the solver's own steps, seconds apart: it lies up to 0.05 % low.
            double reference = rows["peak_speed_mps"].Number("value");
            Assert.InRange(peak, reference, reference * 1.0005);
            SimulatedParachute canopy = new() { MassKg = first.Number("mass_kg"), DragAreaM2 = first.Number("CdS_m2") };
            foreach (PublishedRow row in group)
            {
                if (!row["quantity"].StartsWith("terminal_speed_at_", StringComparison.Ordinal))
                    continue;
                string at = row["quantity"]["terminal_speed_at_".Length..^"_mps".Length];
                double z = at == "ground" ? row.Number("z_ground_m") : double.Parse(at[..^1], null);
                double rate = canopy.SeaLevelRateMps * StandardAtmosphere.Table.FallFactor(z);
                Assert.True(Math.Abs(rate / row.Number("value") - 1) < 3e-6, $"{row}: {rate}");
            }
        }
    }

    [Fact]
    public void Drops_through_real_soundings_land_at_the_reference_place()
    {
        PublishedTable table = PublishedTable.Read("ref_landing_real_winds.csv");
        Assert.Equal(28, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            Sounding sounding = Sounding.Read(row["sounding"]);
            Scenario scenario = Drop(row, "z0_m", new(row.Number("lat0"), row.Number("lon0"))) with
            {
                Air = new SimulatedAir { Winds = sounding.Winds },
            };
            DensityTable? density = row["density"] == "sounding" ? new(sounding.DensityKgM3) : null;
            TrueState landing = new TrueFlight(scenario, density).FlyToGround();
            double off = Geodesic.DistanceM(landing.Position, new(row.Number("lat_land"), row.Number("lon_land")));
            Assert.True(off < 1, $"{row}: {off} m off");
            Assert.Equal(row.Number("time_s"), landing.TimeS, 0.02);
            // Soundings have kinks near the ground that a table of 20 m rounds off.
            Assert.Equal(row.Number("impact_mps"), -landing.VerticalRateMps, 0.005);
        }
    }

    private static Scenario Drop(PublishedRow row, string start, GeoPoint from) => new()
    {
        LaunchUtc = Instant.FromUtc(new(2026, 6, 21), TimeSpan.FromHours(9)),
        LaunchSite = from,
        LaunchHeight = new(row.Number(start)),
        LandingGround = new(row.Number("z_ground_m")),
        PadS = 0,
        Balloon = new() { BurstHeight = new(row.Number(start)) },
        Parachute = new() { MassKg = row.Number("mass_kg"), DragAreaM2 = row.Number("CdS_m2") },
    };
}
