using Groundstation.Core.Air;
using Xunit;

namespace Groundstation.Published.Air;

/// <summary>
/// isa1976_computed.csv: the defining equations of NOAA-S/T 76-1562 evaluated by an independent script.
/// isa1976_tabulated.csv: rows of printed tables (PDAS, NOAA-S/T 76-1562 Table I, ICAO Doc 7488), from copies.
/// </summary>
public class StandardAtmosphereTables
{
    [Fact]
    public void Every_computed_row_agrees_to_its_printed_digits()
    {
        PublishedTable table = PublishedTable.Read("isa1976_computed.csv");
        Assert.Equal(221, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            // Rows keyed by geopotential height print the geometric one to 1 µm only.
            double z = row["given"] == "Z"
                ? row.Number("z_geometric_m")
                : StandardAtmosphere.GeometricFromGeopotential(row.Number("h_geopotential_m"));
            Near(row, "z_geometric_m", z, 1e-6, 0);
            Near(row, "h_geopotential_m", StandardAtmosphere.GeopotentialFromGeometric(z), 1e-6, 0);
            Near(row, "T_K", StandardAtmosphere.TemperatureK(z), 2e-9, 0);
            Near(row, "p_Pa", StandardAtmosphere.PressurePa(z), 0, 6e-9);
            Near(row, "rho_kg_m3", StandardAtmosphere.DensityKgM3(z), 0, 6e-9);
            Near(row, "a_mps", StandardAtmosphere.SpeedOfSound(z), 6e-5, 0);
            Near(row, "mu_Pa_s", StandardAtmosphere.DynamicViscosity(z), 0, 6e-8);
            Near(row, "g_mps2", StandardAtmosphere.Gravity(z), 6e-9, 0);
            Assert.Equal(z, StandardAtmosphere.HeightFromPressure(row.Number("p_Pa")), 1e-3);
            double tabulated = StandardAtmosphere.Table.DensityKgM3(z) / StandardAtmosphere.DensityKgM3(z);
            Assert.Equal(1, tabulated, 6e-5);
        }
    }

    [Fact]
    public void Every_printed_table_agrees_to_its_rounding()
    {
        PublishedTable table = PublishedTable.Read("isa1976_tabulated.csv");
        Assert.Equal(58, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            double z = row["key"] == "H"
                ? StandardAtmosphere.GeometricFromGeopotential(row.Number("h_geopotential_m"))
                : row.Number("z_geometric_m");
            if (row["key"] == "ZH")
                z = StandardAtmosphere.GeometricFromGeopotential(row.Number("h_geopotential_m"));
            if (row.Has("T_K"))
                Near(row, "T_K", StandardAtmosphere.TemperatureK(z), 0.006, 0);
            // Five printed digits; the oldest table rounds its own constants (7·10⁻⁵ by the table's own note).
            if (row.Has("p_Pa"))
                Near(row, "p_Pa", StandardAtmosphere.PressurePa(z), 0, 1e-4);
            if (row.Has("rho_kg_m3"))
                Near(row, "rho_kg_m3", StandardAtmosphere.DensityKgM3(z), 0, 1e-4);
            if (row.Has("a_mps"))
                Near(row, "a_mps", StandardAtmosphere.SpeedOfSound(z), 0.006, 0);
            if (row.Has("mu_Pa_s"))
                Near(row, "mu_Pa_s", StandardAtmosphere.DynamicViscosity(z), 0, 1e-4);
        }
    }

    private static void Near(PublishedRow row, string column, double actual, double absolute, double relative)
    {
        double expected = row.Number(column);
        Assert.True(Math.Abs(actual - expected) <= absolute + relative * Math.Abs(expected),
            $"{column}: {actual:R} against {row}");
    }
}
