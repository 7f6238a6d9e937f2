using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Callouts;

/// <summary>What is read to the chase team: right, in twenty seconds, and in the plan's words.</summary>
public class CalloutTextTests
{
    private static readonly Instant Now = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(11, 4, 19));
    private static readonly GeoPoint Pad = new(47.0642, 2.4318);

    private static LandingEstimate Landing(double lat = 47.17681, double lon = 3.50976, double major95 = 2500,
        double minor95 = 2400, double inS = 882) => new()
        {
            Utc = Now,
            Phase = Phase.Descent,
            Altitude = new(5991),
            Position = new(lat, lon),
            Ground = new(182),
            LandingUtc = Now.PlusSeconds(inS),
            LandingSigmaS = 42,
            Method = LandingMethod.Descent,
            Area50 = new(major95 * 0.45, minor95 * 0.45, 69),
            Area95 = new(major95, minor95, 69),
            HeardAgeS = 361,
            Causes = "wind 2 to 6 km 51 %, descent rate 20 %",
        };

    private static CalloutScene Scene(LandingEstimate landing, bool silent = false, GeoPoint? car = null,
        double carAgeS = 10, Phase phase = Phase.Descent, bool heard = true) =>
        new(Now, new FlightState { Phase = phase, PhaseHeard = heard, BurstHeard = true, VerticalRateMps = -7.7 }, landing,
            silent, car is { } at ? new Waypoint(Now.PlusSeconds(-carAgeS), at, default) : null, Pad);

    private static CalloutText Plain => new(FlightPlan.Default);

    private static CalloutText With(CalloutSettings settings, DisplayUnits units = default) =>
        new(FlightPlan.Default with { Callouts = settings, Units = units });

    [Fact]
    public void In_the_descent_it_says_who_when_where_which_way_how_large_when_down_and_how_sure()
    {
        (string shown, string spoken) = Plain.Short(Scene(Landing(), car: new(47.10, 3.40)), "cadence", null);
        Assert.Equal("Chase, Mission Control, 11:04 UTC. Descending. Landing estimate 47.177N 3.510E. From you bearing "
            + "044° true, 12 km. Search within 2.5 km. Confidence fair. Landing in 15 min.", shown);
        Assert.Equal("Chase, Mission Control, one one zero four Zulu. Descending. Landing estimate four seven decimal one "
            + "seven seven north, three decimal five one zero east. From you bearing zero four four true, one two "
            + "kilometres. Search within two decimal five kilometres. Confidence fair. Landing in one five minutes.", spoken);
    }

    [Fact]
    public void Silent_and_overdue_are_said_first_and_last()
    {
        string spoken = Plain.Short(Scene(Landing(inS: -430), silent: true), "cadence", Landing()).Spoken;
        Assert.Contains("Tracker silent six minutes.", spoken, StringComparison.Ordinal);
        Assert.Contains("Overdue seven minutes.", spoken, StringComparison.Ordinal);
        Assert.DoesNotContain("Landing in", spoken, StringComparison.Ordinal);
    }

    [Fact]
    public void Landed_it_gives_the_place_to_the_metre_and_no_time()
    {
        LandingEstimate lies = Landing(major95: 12, minor95: 12, inS: -60) with { Method = LandingMethod.Landed };
        string shown = Plain.Short(Scene(lies, phase: Phase.Landed), "landed", Landing()).Shown;
        Assert.Contains("Landed. It lies at 47.17681N 3.50976E.", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("Landing in", shown, StringComparison.Ordinal);
    }

    [Fact]
    public void A_move_says_how_far_and_where_to()
    {
        string shown = Plain.Short(Scene(Landing(), car: Pad), "moved", Landing(lon: 3.54)).Shown;
        Assert.Contains("Estimate moved 2.3 km west to 47.177N 3.510E.", shown, StringComparison.Ordinal);
    }

    [Fact]
    public void The_chase_cars_old_place_is_not_taken_for_where_it_is() =>
        Assert.Contains("From your last place bearing", Plain.Short(
            Scene(Landing(), car: new(47.1, 3.4), carAgeS: 1200), "cadence", null).Shown, StringComparison.Ordinal);

    [Fact]
    public void Magnetic_bearings_differ_by_the_declination_and_say_so()
    {
        CalloutText magnetic = With(new() { MagneticBearings = true });
        // 9° west at this invented car's place in the North Atlantic.
        GeoPoint car = new(48.2, -30.6);
        CalloutScene scene = Scene(Landing(48.3, -30.5), car: car);
        double east = MagneticModel.DeclinationDeg(car, Now)!.Value;
        double bearing = Geodesic.Inverse(car, scene.Landing.Position).AzimuthDeg - east;
        Assert.InRange(east, -12, -6);
        Assert.Contains($"bearing {Math.Round(bearing):000}° magnetic", magnetic.Short(scene, "cadence", null).Shown,
            StringComparison.Ordinal);
        // Past the model's years a bearing is true, and called so.
        CalloutScene later = scene with { Utc = Instant.FromUtc(new(2031, 1, 1), default) };
        Assert.Contains("° true", magnetic.Short(later, "cadence", null).Shown, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(CoordinateFormat.DecimalDegrees, 47.17681, 3.50976,
        "four seven decimal one seven seven north, three decimal five one zero east")]
    [InlineData(CoordinateFormat.DegreesMinutes, 47.17681, 3.50976,
        "four seven degrees one zero decimal six north, three degrees three zero decimal six east")]
    [InlineData(CoordinateFormat.DegreesMinutesSeconds, 47.17681, 3.50976,
        "four seven degrees one zero minutes three seven north, three degrees three zero minutes three five east")]
    // Rows of the published tables.
    [InlineData(CoordinateFormat.Utm, 58.183762, -30.950768,
        "two five north, six two zero four niner six, six four five one zero zero one")]
    [InlineData(CoordinateFormat.Mgrs, 58.183762, -30.950768, "two five victor, foxtrot echo, two zero four, five one zero")]
    [InlineData(CoordinateFormat.Maidenhead, 48.14666, 11.60833,
        "juliett november five eight tango delta two five x-ray echo")]
    [InlineData(CoordinateFormat.DecimalDegrees, -0.5, -179.9,
        "zero decimal five zero zero south, one seven niner decimal niner zero zero west")]
    public void Places_are_said_in_the_plans_coordinates(CoordinateFormat format, double lat, double lon, string said)
    {
        string spoken = With(new() { Coordinates = format }).Short(Scene(Landing(lat, lon)), "cadence", null).Spoken;
        Assert.Contains($"Landing estimate {said}.", spoken, StringComparison.Ordinal);
    }

    [Fact]
    public void Statute_units_are_miles_and_feet()
    {
        (string shown, string spoken) =
            With(new(), DisplayUnits.Customary).Short(Scene(Landing(), car: new(47.10, 3.40)), "cadence", null);
        Assert.Contains("7.4 mi.", shown, StringComparison.Ordinal);
        Assert.Contains("Search within one decimal six miles.", spoken, StringComparison.Ordinal);
        Assert.Contains("19700 ft", With(new(), DisplayUnits.Customary).Full(Scene(Landing())).Shown, StringComparison.Ordinal);
    }

    [Fact]
    public void An_area_that_is_long_is_told_with_its_axis()
    {
        string shown = With(new() { Coordinates = CoordinateFormat.Maidenhead })
            .Short(Scene(Landing(major95: 9000, minor95: 3000)), "cadence", null).Shown;
        Assert.Contains("Search 9.0 by 3.0 km.", shown, StringComparison.Ordinal);
        Assert.Contains("Axis 069°.", shown, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_callout_can_be_said_in_twenty_seconds_and_keeps_place_way_and_area()
    {
        SeededRandom draws = new(3);
        string[] occasions = ["launch", "burst", "cadence", "moved", "silence", "heard-again", "landed"];
        foreach (CoordinateFormat format in Enum.GetValues<CoordinateFormat>())
            for (int i = 0; i < 400; i++)
            {
                string occasion = occasions[draws.NextBelow(occasions.Length)];
                double major = Math.Pow(10, draws.NextBetween(1, 5));
                LandingEstimate landing = Landing(draws.NextBetween(-79, 83), draws.NextBetween(-180, 180), major,
                    major * draws.NextBetween(0.05, 1), draws.NextBetween(-9000, 9000));
                GeoPoint car = Geodesic.Direct(landing.Position, draws.NextBetween(0, 360), draws.NextBetween(30, 300_000));
                CalloutScene scene = Scene(landing, draws.NextChance(0.4), draws.NextChance(0.5) ? car : null,
                    draws.NextBetween(0, 900), occasion == "landed" ? Phase.Landed : Phase.Descent);
                string to = i % 2 == 0 ? "Chase Two" : "Chase Team Alpha North";
                CalloutText text = With(new() { Coordinates = format, To = to, MagneticBearings = draws.NextChance(0.5) },
                    draws.NextChance(0.5) ? DisplayUnits.Metric : DisplayUnits.Customary);
                LandingEstimate before = landing with { Position = Geodesic.Direct(landing.Position, 200, major) };
                (string shown, string spoken) = text.Short(scene, occasion, before);
                Assert.True(CalloutText.Words(spoken) <= CalloutText.MostWords, $"{CalloutText.Words(spoken)}: {spoken}");
                if (!scene.Stale) Assert.Contains(" bearing ", spoken, StringComparison.Ordinal);
                Assert.Contains("Search ", spoken, StringComparison.Ordinal);
                if (scene is { Silent: true, HasLanded: false }) Assert.Contains("Tracker silent", spoken, StringComparison.Ordinal);
                Assert.DoesNotContain(spoken, char.IsDigit);
                Assert.DoesNotContain("  ", spoken + shown, StringComparison.Ordinal);
            }
    }

    [Fact]
    public void The_longest_place_of_a_small_area_costs_the_time_of_the_call_but_neither_way_nor_area()
    {
        CalloutText text = With(new() { Coordinates = CoordinateFormat.DegreesMinutesSeconds, To = "Chase Two" });
        CalloutScene scene = Scene(Landing(-33.8765432, 151.2345678, 60, 30), silent: true, car: new(-33.9, 151.9));
        Assert.Equal("Chase Two, Mission Control. Tracker silent 6 min. Landing estimate 33°52'35.6\"S 151°14'04.4\"E. From you "
            + "bearing 272° true, 62 km. Search within 60 m. Confidence high.", text.Short(scene, "cadence", null).Shown);
        // With an area in which the tenth of a second does not count the time is said again.
        scene = scene with { Landing = Landing(-33.8765432, 151.2345678, 600, 300) };
        Assert.Contains("11:04 UTC", text.Short(scene, "cadence", null).Shown, StringComparison.Ordinal);
    }

    [Fact]
    public void The_full_form_has_everything_and_no_figure_unsaid()
    {
        (string shown, string spoken) = With(new() { Coordinates = CoordinateFormat.Mgrs })
            .Full(Scene(Landing(), silent: true, car: new(47.10, 3.40)));
        string[] parts = ["Tracker silent 6 min, expected descending at 6000 m.", "31T EN 386", "47.17681N 3.50976E",
            "From launch bearing", "Ground there 180 m.", "Half of flights come down within 1.1 km.", "at 11:19 UTC",
            "because of wind 2 to 6 km 51 %"];
        Assert.All(parts, part => Assert.Contains(part, shown, StringComparison.Ordinal));
        Assert.DoesNotContain(spoken, char.IsDigit);
        Assert.Contains("wind two to six kilometres five one percent", spoken, StringComparison.Ordinal);
    }
}
