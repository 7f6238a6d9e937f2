using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;
using static Groundstation.Console.Tests.Screens.Painted;

namespace Groundstation.Console.Tests.Screens;

/// <summary>What a user must see, at three sizes.</summary>
public class ScreenTests
{
    [Fact]
    public void Overview_in_the_descent_tells_place_height_rate_phase_landing_receivers_and_alarms() =>
        Shows(DemoSnapshots.Descent(), ScreenId.Flight, "DESCENT", "19 314 m", "-19.0 m/s", "heard 1 s ago",
            "T+01:46:40", "48.41687N 13.91853E", "48.39675N 14.30431E", "2.4 × 1.2 km along 081°", "95 of 100",
            "11:21 ±3 min", "radio1", "1.0 fix/s", "LINK LOST 42 s", "CAUTION", "advisory", "Check the plug of radio2",
            "callout 2", "30 000 m at 10:40:00", "recording, 4321 lines", "▲", "◆", "●", "Altitude", "30 km");

    [Fact]
    public void Overview_in_silence_says_so_and_marks_what_is_only_expected() =>
        Shows(DemoSnapshots.Silence(), ScreenId.Flight, "NOT HEARD 8 min 20 s", "WARNING", "descent?", "~12 038 m",
            "~-11.4 m/s", "Position, expected", "last heard", "10:46:40 at 19 314 m", "by model, not heard",
            "±5.2 × 3.0 km", "AGAIN: callout 3, heard wrong", "last heard", "expected");

    [Fact]
    public void Overview_in_the_ascent_tells_that_no_burst_was_seen() =>
        Shows(DemoSnapshots.Ascent(), ScreenId.Flight, "ASCENT", "16 828 m", "no burst yet", "by expected burst");

    [Fact]
    public void Overview_after_the_landing_tells_the_place() =>
        Shows(DemoSnapshots.Landed(), ScreenId.Flight, "LANDED", "heard on the ground", "48.39675N 14.30431E",
            "no alarm");

    [Fact]
    public void Before_the_first_fix_it_says_what_it_waits_for_and_what_is_assumed() =>
        Shows(DemoSnapshots.Nothing(), ScreenId.Flight, "WAITING", "NOTHING BELIEVED YET", "Nothing heard yet",
            "no such device /dev/ttyUSB0", "No plan: these values are assumed", "+5.0 m/s", "30 000 m",
            "where the first fixes are");

    [Fact]
    public void A_console_that_follows_does_not_ask_for_a_cable()
    {
        string text = Paint(DemoSnapshots.Nothing(), new View(), 80, 24,
            new FeedStatus { Following = true, Sources = ["mqtt:192.168.4.1/flight"] });
        Assert.Contains("is it on, and does it share", text);
        Assert.Contains("follows mqtt:192.168.4.1/flight", text);
        Assert.DoesNotContain("cable", text);
    }

    [Fact]
    public void Where_is_it() => Shows(DemoSnapshots.Descent(), ScreenId.Where, "Where is it?", "launch", "burst",
        "landing", "chase", "50 km", "↑N", "├", "track", "95 of 100", "48.41687N 13.91853E");

    [Fact]
    public void How_high() => Shows(DemoSnapshots.Descent(), ScreenId.High, "How high is it?",
        "burst 30 000 m at 10:40:00",
        "Vertical rate", "T+0", "2:00", "descent at sea level -5.2 m/s ±10 %, measured", "+5", "highest 30 000 m");

    [Fact]
    public void Where_will_it_land() => Shows(DemoSnapshots.Silence(), ScreenId.Land, "Where will it land?",
        "by model, not heard", "from launch", "from expected", "400 m above sea level, as at the launch",
        "11:21 ±3 min", "in 26 min", "±2.1 × 1.2 km along 081°", "±5.2 × 3.0 km along 081°", "wind above 20 km 61 %", "last wind only",
        "How it has moved", "dotted", "100 km", "1 km");

    [Fact]
    public void Earlier_estimates_stand_in_a_table_where_there_is_room()
    {
        string text = Paint(DemoSnapshots.Silence(), new View { Screen = ScreenId.Land }, 120, 40);
        Assert.Contains("Earlier estimates", text);
        Assert.Matches(@"31\.4 km at 315°", text);
    }

    [Fact]
    public void A_mark_is_seen_in_the_profile_and_starts_the_mission_time_but_not_the_phase()
    {
        Snapshot pad = DemoSnapshots.Ascent();
        pad = pad with
        {
            Flight = pad.Flight with { Phase = Core.Flight.Phase.Pad, Launch = null },
            Marks = new OperatorMarks(pad.Utc.PlusSeconds(-75), null),
        };
        Shows(pad, ScreenId.High, "launch marked 09:54:15, not heard yet", "T+00:01:15", "ON THE PAD", "launch marked");
    }

    [Fact]
    public void Before_the_launch_that_the_plan_states_the_mission_time_counts_down()
    {
        Snapshot s = DemoSnapshots.Nothing();
        Assert.Contains("T-00:10:05", Paint(s with { Plan = s.Plan with { LaunchUtc = s.Utc.PlusSeconds(605) } },
            new View(), 80, 24));
    }

    [Fact]
    public void An_age_between_heard_and_not_heard_has_a_word_of_its_own() =>
        Shows(DemoSnapshots.Descent() with { HeardAgeS = 14 }, ScreenId.Where, "LATE, heard 14 s ago");

    [Fact]
    public void A_tracker_that_sends_seldom_is_not_called_silent_between_two_fixes() =>
        Shows(DemoSnapshots.Descent() with { HeardAgeS = 55, NotHeardAfterS = 180 }, ScreenId.Flight, "heard 55 s ago",
            "DESCENT", "19 314 m");

    [Fact]
    public void What_is_the_wind() => Shows(DemoSnapshots.Descent(), ScreenId.Wind, "What is the wind?", "from", "±",
        "●", "WNW", "m/s", "up", "▒", "bars reach to", "no forecast in the plan");

    [Fact]
    public void In_ascii_the_direction_keeps_clear_of_the_speed() => Assert.Matches(@"\d{3} deg +\d+\.\d m/s",
        Paint(DemoSnapshots.Descent(), new View { Screen = ScreenId.Wind }, 80, 24, ascii: true));

    [Fact]
    public void In_ascii_a_spread_is_not_taken_for_what_is_only_expected()
    {
        string text = Paint(DemoSnapshots.Descent(), new View { Screen = ScreenId.Land }, 80, 24, ascii: true);
        Assert.Contains("+/-", text);
        Assert.DoesNotContain("~", text);
    }

    [Fact]
    public void Every_spread_is_that_of_95_of_100()
    {
        Snapshot s = DemoSnapshots.Nothing();
        string burst = $"30 000 m ±{new Figures(DisplayUnits.Metric, false).Height(2 * s.Plan.BurstSigmaM)}";
        Shows(s, ScreenId.Flight, burst);
        Assert.Contains("±5 km", Groundstation.Io.PlanFile.PlanDefaults.Describe(s.Plan)
            .Single(line => line.StartsWith("burst height", StringComparison.Ordinal)).Replace("± ", "±"));
        Assert.Matches("± +95 of 100 keep within it", Paint(s, new View { HelpPage = 1 }, 80, 24));
    }

    [Fact]
    public void Axis_figures_are_round_in_the_unit_shown() => Assert.Matches(@"\+[1-9] ?000 |\+[1-9]00 |\+[1-9] [1-9]00 ",
        Paint(DemoSnapshots.Descent() with { Units = Core.Quantities.DisplayUnits.Customary },
            new View { Screen = ScreenId.High }, 80, 24));

    [Fact]
    public void The_words_of_a_long_callout_are_all_there_at_the_smallest_size()
    {
        Snapshot s = DemoSnapshots.Descent();
        string spoken = string.Join(' ', Enumerable.Range(0, 130).Select(i => "words" + i));
        Snapshot longest = s with
        {
            Callouts = [.. s.Callouts, s.Callouts[^1] with { Text = new string('f', 400), Spoken = spoken }],
        };
        Shows(longest, ScreenId.Say, "words0 ", "words129");
    }

    [Fact]
    public void A_forecast_stands_beside_the_measured_wind()
    {
        Snapshot s = DemoSnapshots.Descent();
        Core.Air.WindVector wind = Core.Air.WindVector.FromDirection(180, 10);
        Shows(s with { Foretold = [new(new(0), wind), new(new(40_000), wind)] }, ScreenId.Wind, "off by", "◇");
    }

    [Fact]
    public void Can_I_believe_it() => Shows(DemoSnapshots.Descent(), ScreenId.Believe, "Can I believe it?",
        "6400 fixes believed", "64 refused", "checksum 31", "truncated 4", "9 of 11 used, dB-Hz", "not tracked",
        "horizontal jump: 4210 m", "accepted", "$GNGGA,104000.00");

    [Fact]
    public void A_rejected_line_is_shown_with_its_verdict_and_without_its_escapes()
    {
        Snapshot s = DemoSnapshots.Descent();
        string text = Paint(s, new View { Screen = ScreenId.Believe }, 160, 48);
        Assert.Contains("bad checksum $GNGGA,103959.00,48?[2J", text);
        Assert.DoesNotContain("://", text);
    }

    [Fact]
    public void What_do_I_say() => Shows(DemoSnapshots.Silence(), ScreenId.Say, "Number 3", "READ BACK WRONG",
        "Tracker not heard for six minutes.", "open", "correct");

    [Fact]
    public void What_happened() => Shows(DemoSnapshots.Descent(), ScreenId.Happened, "09:39:30", "layer 39 measured",
        "fix refused: horizontal jump", "recorded in flights/demo");

    [Fact]
    public void Events_are_filtered()
    {
        string text = Paint(DemoSnapshots.Descent(), new View { Screen = ScreenId.Happened, Filter = "REFUSED" }, 80,
            24);
        Assert.Contains("fix refused", text);
        Assert.DoesNotContain("layer 39", text);
    }
}
