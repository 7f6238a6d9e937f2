using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Xunit;

namespace Groundstation.Published.Landing;

/// <summary>
/// ref_landing_real_winds.csv: parachute drops through real soundings, integrated with scipy 1.10.1 DOP853. The live path
/// (levels of 100 m, steady drift with the wind, steps over the ellipsoid) must come down at the same place and time.
/// </summary>
public class ReferenceLandings
{
    [Fact]
    public void The_live_path_lands_where_the_reference_does()
    {
        PublishedTable table = PublishedTable.Read("ref_landing_real_winds.csv");
        Assert.Equal(28, table.Rows.Count);
        List<string> wrong = [];
        foreach (PublishedRow row in table.Rows)
        {
            Sounding sounding = Sounding.Read(row["sounding"]);
            var east = new double[Levels.Count];
            var north = new double[Levels.Count];
            var speedSquared = new double[Levels.Count];
            double weight = 2 * row.Number("mass_kg") / row.Number("CdS_m2");
            for (int i = 0; i < Levels.Count; i++)
            {
                double z = Levels.HeightM(i);
                (east[i], north[i]) = sounding.WindAt(z) is var wind ? (wind.EastMps, wind.NorthMps) : default;
                double density = row["density"] == "sounding"
                    ? sounding.DensityKgM3(z) : StandardAtmosphere.DensityKgM3(z);
                speedSquared[i] = weight * StandardAtmosphere.Gravity(z) / density;
            }
            double start = row.Number("z0_m"), ground = row.Number("z_ground_m");
            var fall = new FallTable();
            fall.Fill(start, 0, speedSquared, east, north, ground);
            var route = new Route();
            route.Begin(new(row.Number("lat0"), row.Number("lon0")), start);
            route.Fall(fall, ground, null);

            // 50 m and 2 s hold without a canopy as well, where wind's lag at up to 300 m/s would allow more.
            double off = Geodesic.DistanceM(route.End, new(row.Number("lat_land"), row.Number("lon_land")));
            double late = route.EndS - row.Number("time_s");
            if (off > 50 || Math.Abs(late) > 2)
                wrong.Add($"{row["case"]}: {off:F1} m, {late:F2} s off");
        }
        Assert.Empty(wrong);
    }
}
