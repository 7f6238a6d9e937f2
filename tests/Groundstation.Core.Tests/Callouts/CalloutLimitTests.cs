using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Callouts;

/// <summary>Where one wording, or one occasion to call, gives way to the next.</summary>
public class CalloutLimitTests
{
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(10, 0, 0));
    private static readonly GeoPoint Place = new(47.2, 3.5), Pad = new(47.06, 2.43);

    private readonly Wording _say = new(FlightPlan.Default);
    private readonly CalloutDesk _desk = new(FlightPlan.Default);

    private static CalloutScene Scene(double atS, double northM = 0, bool silent = false, double ageS = 0,
        SearchArea? area50 = null, GeoPoint? car = null) => new(Start.PlusSeconds(atS),
        new FlightState { Phase = Phase.Descent, VerticalRateMps = -8 }, new LandingEstimate
        {
            Utc = Start.PlusSeconds(atS),
            Phase = Phase.Descent,
            Altitude = new(9000),
            Position = Geodesic.Direct(Place, 0, northM),
            Ground = new(180),
            LandingUtc = Start.PlusSeconds(1000),
            Method = LandingMethod.Descent,
            Area50 = area50 ?? new(100, 100, 0),
            Area95 = area50 is { } a ? new(2 * a.MajorM, 2 * a.MinorM, a.AzimuthDeg) : new(250, 250, 0),
            HeardAgeS = ageS,
        }, silent, car is { } at ? new Waypoint(Start.PlusSeconds(atS), at, default) : null, Pad);

    private string? At(double s, double northM = 0, bool silent = false) =>
        _desk.Consider(Scene(s, northM, silent, silent ? 31 : 0))?.Occasion;

    [Theory]
    [InlineData(14, "10 m")]
    [InlineData(984, "980 m")]
    [InlineData(997, "1.0 km")]
    [InlineData(9940, "9.9 km")]
    [InlineData(9960, "10 km")]
    [InlineData(83_400, "83 km")]
    public void A_distance_has_two_figures_or_three(double metres, string shown) =>
        Assert.Equal(shown, _say.Distance(metres).Shown);

    [Theory]
    [InlineData(84, "80 s")]
    [InlineData(100, "2 min")]
    [InlineData(119, "2 min")]
    public void A_length_of_time_is_in_minutes_from_one_and_a_half_on(double seconds, string shown) =>
        Assert.Equal(shown, Wording.Span(seconds).Shown);

    [Theory]
    [InlineData(644, "640 m")]
    [InlineData(984, "980 m")]
    [InlineData(1049, "1000 m")]
    [InlineData(8960, "9000 m")]
    public void A_height_is_in_tens_below_a_thousand_and_in_hundreds_above(double metres, string shown) =>
        Assert.Equal(shown, _say.Height(new HeightMsl(metres)).Shown);

    [Theory]
    [InlineData(500, "high")]
    [InlineData(501, "good")]
    [InlineData(2000, "good")]
    [InlineData(2001, "fair")]
    [InlineData(8000, "fair")]
    [InlineData(8001, "low")]
    public void Confidence_is_what_the_larger_half_axis_means_to_who_searches(double majorM, string word) =>
        Assert.Equal(word, Wording.Confidence(new SearchArea(majorM, 10, 0)));

    [Theory]
    [InlineData(1400, false)]
    [InlineData(1600, true)]
    public void A_long_area_has_an_axis(double majorM, bool told) => Assert.Equal(told,
        new CalloutText(FlightPlan.Default).Full(Scene(0, area50: new SearchArea(majorM, 1000, 69))).Shown
            .Contains("Axis 069° true", StringComparison.Ordinal));

    [Theory]
    [InlineData(15, true)]
    [InlineData(25, false)]
    public void A_car_within_twenty_metres_is_there(double offM, bool there) => Assert.Equal(there,
        new CalloutText(FlightPlan.Default).Short(Scene(0, car: Geodesic.Direct(Place, 90, offM)), "cadence", null).Shown
            .Contains("It is where you are.", StringComparison.Ordinal));

    [Theory]
    [InlineData(90, true)]
    [InlineData(110, false)]
    public void A_move_that_no_map_shows_is_none(double northM, bool unchanged) => Assert.Equal(unchanged,
        new CalloutText(FlightPlan.Default).Short(Scene(0, northM), "cadence", Scene(0).Landing).Shown
            .Contains("Estimate unchanged.", StringComparison.Ordinal));

    [Theory]
    [InlineData(4, true)]
    [InlineData(7, false)]
    public void While_the_alarm_of_a_silence_still_stands_a_new_fix_is_heard_again(double ageS, bool again) =>
        Assert.Equal(again, Scene(0, silent: true, ageS: ageS).HeardAgain);

    [Fact]
    public void Nothing_is_called_within_a_minute_of_the_last_call()
    {
        Assert.Equal("burst", At(0));
        Assert.Null(At(59, northM: 5000));
        Assert.Equal("moved", At(60, northM: 5000));
    }

    [Fact]
    public void A_small_area_is_called_anew_when_it_has_moved_by_half_a_kilometre()
    {
        At(0);
        Assert.Null(At(70, northM: 490));
        Assert.Equal("moved", At(80, northM: 510));
    }

    [Fact]
    public void A_silence_that_comes_and_goes_is_told_once_a_minute()
    {
        At(0);
        Assert.Equal("silence", At(70, silent: true));
        Assert.Null(At(90));
        Assert.Null(At(129));
        Assert.Equal("heard-again", At(130));
    }

    [Fact]
    public void In_the_descent_it_is_called_every_three_minutes_and_once_it_must_be_down_every_ten()
    {
        At(700);
        Assert.Null(At(879));
        Assert.Equal("cadence", At(880));
        Assert.Null(At(1100));
        Assert.Null(At(1479));
        Assert.Equal("cadence", At(1480));
    }
}
