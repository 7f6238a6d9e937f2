using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Landing;

public class OutlookTests
{
    [Fact]
    public void Burst_is_expected_above_the_height_already_reached()
    {
        Assert.Equal(30_000, new BurstOutlook(30_000, 2500, 1000).Expected(), 30.0);
        double before = 30_000;
        foreach (double reached in (double[])[29_000, 32_000, 38_000, 45_000])
        {
            var outlook = new BurstOutlook(30_000, 2500, reached);
            Assert.True(outlook.Quantile(0.01) >= reached);
            Assert.True(outlook.Expected() > before && outlook.Quantile(0.99) > outlook.Expected());
            before = outlook.Expected();
        }
    }

    [Fact]
    public void The_ground_is_below_a_payload_that_is_heard_falling()
    {
        Assert.Equal(200, new GroundGuess(200, 50).Expected());
        foreach (double heard in (double[])[230, 180, 60, -100])
        {
            var ground = new GroundGuess(200, 50, heard);
            Assert.True(ground.Expected() < heard);
            Assert.True(ground.Quantile(0.999) <= heard && ground.Quantile(0.001) < ground.Quantile(0.999));
        }
    }

    [Fact]
    public void The_ellipses_hold_their_shares_of_the_members()
    {
        var scatter = new Scatter();
        var random = new SeededRandom(3);
        for (int i = 0; i < Draws.Count; i++)
        {
            double along = 900 * random.NextGaussian(), across = 200 * random.NextGaussian();
            // Along is 60° east of north.
            scatter.East[i] = along * Math.Sin(Math.PI / 3) + across * Math.Cos(Math.PI / 3);
            scatter.North[i] = along * Math.Cos(Math.PI / 3) - across * Math.Sin(Math.PI / 3);
        }
        (SearchArea half, SearchArea most) = scatter.Areas(0, 0);
        Assert.Equal(0.5, Share(scatter, half), 0.01);
        Assert.Equal(0.95, Share(scatter, most), 0.01);
        Assert.Equal(60, most.AzimuthDeg, 2.0);
        Assert.InRange(most.MajorM, 2000, 2450);
        Assert.InRange(most.MinorM, 440, 550);
    }

    [Fact]
    public void The_path_crosses_the_antimeridian_and_the_pole()
    {
        GeoPoint east = Drop(new(10, 179.9), 20, 0, null).End;
        Assert.InRange(east.LongitudeDeg, -180, -179.5);
        GeoPoint over = Drop(new(89.95, 30), 0, 20, null).End;
        // A wind to the north everywhere blows together at the pole: it comes down there.
        Assert.InRange(over.LatitudeDeg, 89.99, 90);
    }

    [Fact]
    public void The_path_ends_on_a_ridge_in_its_way()
    {
        var start = new GeoPoint(47, 8);
        double? Ridge(GeoPoint p) => LocalFrame.Between(start, p, 0).EastM is > 15_000 and < 17_000 ? 4000 : 300;
        Assert.Equal(300, Drop(start, 0, 20, Ridge).EndM, 3.0);
        Route stopped = Drop(start, 20, 0, Ridge);
        // There at 3500 m: into the ridge's face, 10 km before it would come down on the plain.
        Assert.InRange(stopped.EndM, 3300, 3700);
        Assert.InRange(LocalFrame.Between(start, stopped.End, 0).EastM, 14_900, 15_100);
    }

    private static Route Drop(GeoPoint from, double east, double north, Func<GeoPoint, double?>? terrain)
    {
        var squares = new double[Levels.Count];
        var e = new double[Levels.Count];
        var n = new double[Levels.Count];
        Array.Fill(squares, 36);
        Array.Fill(e, east);
        Array.Fill(n, north);
        var fall = new FallTable();
        fall.Fill(8000, null, squares, e, n, Levels.BottomM);
        var route = new Route();
        route.Begin(from, 8000);
        route.Fall(fall, 0, terrain);
        return route;
    }

    private static double Share(Scatter scatter, SearchArea area)
    {
        (double sin, double cos) = Math.SinCos(area.AzimuthDeg * Math.PI / 180);
        int inside = 0;
        for (int i = 0; i < Draws.Count; i++)
        {
            double along = (scatter.East[i] * sin + scatter.North[i] * cos) / area.MajorM;
            double across = (scatter.East[i] * cos - scatter.North[i] * sin) / area.MinorM;
            if (along * along + across * across <= 1) inside++;
        }
        return (double)inside / Draws.Count;
    }
}
