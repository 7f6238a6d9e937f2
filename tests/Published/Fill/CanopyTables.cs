using Groundstation.Core.Earth;
using Groundstation.Core.Fill;
using Xunit;

namespace Groundstation.Published.Fill;

/// <summary>Parachutes against published coefficients, a worked example and integrated reference descents.</summary>
public class CanopyTables
{
    [Fact]
    public void Shapes_have_the_published_coefficients()
    {
        PublishedTable table = PublishedTable.Read("parachute_cd.tsv");
        Assert.Equal(table.Rows.Count, CanopyShape.All.Length);
        foreach ((PublishedRow row, CanopyShape shape) in table.Rows.Zip(CanopyShape.All))
        {
            Assert.Equal((row.Number("cd0_min"), row.Number("cd0_max")), (shape.CdLow, shape.CdHigh));
            Assert.StartsWith(shape.Name.Split(' ')[0], row["canopy"], StringComparison.Ordinal);
        }
    }

    // descent_published.tsv, cross canopy: 4.5 lb, Cd 0.85 on 20 ft² in air of 0.00237689 slug/ft³ (1.225 kg/m³): 14.92
    // ft/s by its printed inputs (the page prints 14.1, which belongs to 4.0 lb).
    [Fact]
    public void The_worked_example_comes_out()
    {
        CanopyFall fall = new(4.5 * 0.45359237, 0.85 * 20 * 0.3048 * 0.3048);
        Assert.Equal(14.92, fall.SteadyMps(0) / 0.3048, 0.005);
        Assert.Equal(fall.DragAreaM2, CanopyFall.WithRate(fall.MassKg, fall.SteadyMps(0), new(0)).DragAreaM2, 1e-9);
    }

    [Fact]
    public void Descents_take_the_reference_time_and_speeds()
    {
        PublishedTable table = PublishedTable.Read("ref_descent_isa.csv");
        foreach (var group in table.Rows.GroupBy(r => r["case"]))
        {
            PublishedRow first = group.First();
            CanopyFall fall = new(first.Number("mass_kg"), first.Number("CdS_m2"));
            HeightMsl ground = new(first.Number("z_ground_m"));
            (double seconds, double impact) = fall.Fall(new(first.Number("z_start_m")), ground);
            foreach (PublishedRow row in group)
            {
                string quantity = row["quantity"];
                double? ours = quantity switch
                {
                    "total_time_s_full_ode" => seconds,
                    "impact_speed_mps" => impact,
                    "terminal_speed_at_ground_mps" => fall.SteadyMps(ground.Metres),
                    _ when quantity.StartsWith("terminal_speed_at_", StringComparison.Ordinal) =>
                        fall.SteadyMps(double.Parse(quantity["terminal_speed_at_".Length..^"m_mps".Length], null)),
                    _ => null,
                };
                Assert.True(ours is not { } v || Math.Abs(v / row.Number("value") - 1) < 2e-5, $"{row}: {ours}");
            }
        }
    }
}
