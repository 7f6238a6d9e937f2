using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Callouts;

/// <summary>The sheet that goes along on the search: complete, narrow enough to print, and there when it is due.</summary>
public class SearchSheetTests
{
    private static readonly Instant Now = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(19, 4, 0));

    private static readonly LandingEstimate Silent = new()
    {
        Utc = Now,
        Phase = Phase.Landed,
        Altitude = new(182),
        Position = new(47.17681, 3.50976),
        Ground = new(182),
        LandingUtc = Now.PlusSeconds(-300),
        LandingSigmaS = 42,
        Method = LandingMethod.Silent,
        Area50 = new(1100, 600, 69),
        Area95 = new(2500, 1300, 69),
        HeardAgeS = 1600,
    };

    private static SheetMatter Matter(LandingEstimate landing, GeoPoint? car = null, FlightPlan? plan = null) => new(
        plan ?? FlightPlan.Default, new(Now, new FlightState { Phase = Phase.Landed, PhaseHeard = false }, landing, true,
            car is { } at ? new Waypoint(Now.PlusSeconds(-60), at, default) : null, new(47.0642, 2.4318)), 179);

    [Fact]
    public void It_has_every_format_the_ends_of_both_areas_both_norths_daylight_and_cautions()
    {
        string sheet = SearchSheet.Compose(Matter(Silent, new(47.1, 3.4)));
        Assert.All(Enum.GetValues<CoordinateFormat>(), format =>
            Assert.Contains(CoordinateText.Write(Silent.Position, format), sheet, StringComparison.Ordinal));
        foreach ((double azimuth, double half) in new[] { (69, 2500.0), (249, 2500), (159, 1300), (339, 600) })
        {
            string end = Geodesic.Direct(Silent.Position, azimuth, half).ToString();
            Assert.Contains(end, sheet, StringComparison.Ordinal);
        }
        string[] parts = ["Not heard for 27 min", "182 m; terrain data say 179 m", "from the car", "from launch", "° magnetic",
            "sunrise, sunset", "daylight left", "private land", "power lines", "hydrogen"];
        Assert.All(parts, part => Assert.Contains(part, sheet, StringComparison.Ordinal));
        Assert.All(sheet.Split('\n'), line => Assert.True(line.Length <= SearchSheet.Width, line));
    }

    [Fact]
    public void Daylight_left_is_the_time_to_sunset_and_then_none()
    {
        SunDay day = Sun.DayOf(Silent.Position, Now);
        string At(Instant utc) => SearchSheet.Compose(Matter(Silent) is var m ? m with { Scene = m.Scene with { Utc = utc } } : m)
            .Split('\n').Single(line => line.Contains("daylight left", StringComparison.Ordinal));
        Assert.EndsWith(" 25 min", At(day.Set!.Value.PlusSeconds(-1500)), StringComparison.Ordinal);
        Assert.Contains("none; sunrise in ", At(day.Set!.Value.PlusSeconds(60)), StringComparison.Ordinal);
        SheetMatter north = Matter(Silent with { Position = new(78, 15) });
        Assert.Contains("comes down about", SearchSheet.Compose(north with
        {
            Scene = north.Scene with { Landing = Silent with { LandingUtc = north.Scene.Utc.PlusSeconds(600) } },
        }), StringComparison.Ordinal);
        Assert.Contains("the sun does not set today", SearchSheet.Compose(north), StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_due_once_it_must_be_down_or_lies()
    {
        CalloutScene scene = Matter(Silent).Scene;
        Assert.True(SearchSheet.Due(scene));
        Assert.False(SearchSheet.Due(scene with { Landing = Silent with { LandingUtc = Now.PlusSeconds(60) } }));
        Assert.False(SearchSheet.Due(scene with { Landing = Silent with { Method = LandingMethod.Descent } }));
        Assert.True(SearchSheet.Due(scene with { Landing = Silent with { Method = LandingMethod.Landed } }));
    }

    [Fact]
    public void A_small_move_does_not_make_it_anew_a_large_one_does()
    {
        LandingEstimate Moved(double metres) => Silent with { Position = Geodesic.Direct(Silent.Position, 10, metres) };
        Assert.False(SearchSheet.Differs(Silent, Moved(200)));
        Assert.True(SearchSheet.Differs(Silent, Moved(300)));
        Assert.True(SearchSheet.Differs(Silent, Silent with { Area95 = new(3500, 1300, 69) }));
        Assert.True(SearchSheet.Differs(Silent, Silent with { Method = LandingMethod.Landed }));
    }
}
