using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Callouts;

/// <summary>When something is called.</summary>
public class CalloutDeskTests
{
    private static readonly Instant Start = Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(10, 0, 0));

    private static CalloutScene Scene(double atS, Phase phase, bool silent, double heardAgeS) => new(
        Start.PlusSeconds(atS), new FlightState { Phase = phase, PhaseHeard = heardAgeS < 15 }, new LandingEstimate
        {
            Utc = Start.PlusSeconds(atS),
            Phase = phase,
            Altitude = new(17_000),
            Position = new(47.2, 3.5),
            Ground = new(180),
            LandingUtc = Start.PlusSeconds(4000),
            Method = silent && heardAgeS > 15 ? LandingMethod.Silent : LandingMethod.Descent,
            Area50 = new(900, 900, 0),
            Area95 = new(2000, 2000, 0),
            HeardAgeS = heardAgeS,
        }, silent, null, new(47.06, 2.43));

    [Fact]
    public void Falling_when_heard_again_is_one_callout_that_says_both()
    {
        CalloutDesk desk = new(FlightPlan.Default);
        List<Callout> called = [];
        void At(double s, Phase phase, bool silent, double age)
        {
            if (desk.Consider(Scene(s, phase, silent, age)) is { } callout) called.Add(callout);
        }

        At(0, Phase.Ascent, false, 0);
        At(100, Phase.Ascent, true, 30);
        // Its alarm stands for five seconds after the first fix of the fall.
        for (int s = 200; s < 205; s++) At(s, Phase.Descent, true, 0.2);
        for (int s = 205; s < 300; s++) At(s, Phase.Descent, false, 0.2);
        Assert.Equal(["launch", "silence", "burst"], called.Select(c => c.Occasion));
        Assert.Contains("Heard again, descending. Landing estimate", called[^1].Text, StringComparison.Ordinal);
        // The next silence is called as ever.
        At(301, Phase.Descent, true, 31);
        Assert.Equal("silence", called[^1].Occasion);
    }

    [Fact]
    public void Silent_from_the_climb_on_it_is_called_at_the_quick_cadence_once_it_must_be_falling()
    {
        CalloutDesk desk = new(FlightPlan.Default);
        List<double> called = [];
        for (int s = 0; s < 2400; s++)
        {
            bool silent = s > 100;
            if (desk.Consider(Scene(s, s < 1200 ? Phase.Ascent : Phase.Descent, silent, silent ? s - 100 : 0)) is { Occasion: "cadence" })
                called.Add(s);
        }
        double[] gaps = [.. called.Zip(called.Skip(1), (a, b) => b - a)];
        Assert.All(gaps.Zip(called.Skip(1)).Where(g => g.Second < 1200), g => Assert.Equal(600, g.First));
        Assert.Equal(6, called.Count(s => s > 1200));
        Assert.All(gaps.TakeLast(5), g => Assert.Equal(180, g));
    }

    [Fact]
    public void A_silence_on_the_pad_sends_nobody_driving()
    {
        CalloutDesk desk = new(FlightPlan.Default);
        Assert.Null(desk.Consider(Scene(0, Phase.Pad, false, 0)));
        Assert.Null(desk.Consider(Scene(60, Phase.Pad, true, 31)));
        // Launched unheard: one callout when it is heard again, none about a silence that is over.
        Assert.Equal("launch", desk.Consider(Scene(100, Phase.Ascent, true, 0.2))!.Occasion);
        for (int s = 101; s < 200; s++) Assert.Null(desk.Consider(Scene(s, Phase.Ascent, s < 105, 0.2)));
    }

    [Fact]
    public void Refused_epochs_before_the_first_believed_one_and_a_fall_seen_ten_seconds_later_are_one_callout()
    {
        CalloutDesk desk = new(FlightPlan.Default);
        List<Callout> called = [];
        void At(double s, Phase phase, bool silent, double age, Contact contact)
        {
            if (desk.Consider(Scene(s, phase, silent, age) with { Contact = contact }) is { } callout) called.Add(callout);
        }

        At(0, Phase.Ascent, false, 0, Contact.Alive);
        for (int s = 100; s < 500; s++) At(s, Phase.Ascent, true, s - 70, Contact.Silent);
        for (int s = 500; s < 508; s++) At(s, Phase.Ascent, true, s - 70, Contact.Alive);
        for (int s = 508; s < 700; s++) At(s, s < 517 ? Phase.Ascent : Phase.Descent, s < 513, 0.2, Contact.Alive);
        Assert.Equal(["launch", "silence", "burst"], called.Take(3).Select(c => c.Occasion));
        Assert.Contains("Heard again, descending.", called[2].Text, StringComparison.Ordinal);
        Assert.DoesNotContain(called.Skip(3), c => c.Occasion == "heard-again");
    }
}
