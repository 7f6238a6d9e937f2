using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Plan;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>What a user must see, at three sizes.</summary>
public class ScreenTests
{
    private static readonly (int Width, int Height)[] Sizes = [(80, 24), (120, 40), (160, 48), (200, 60)];

    private static string Paint(Snapshot? s, View view, int width, int height, FeedStatus? status = null,
        bool ascii = false)
    {
        Canvas canvas = new(ascii);
        canvas.Reset(width, height);
        Painter.Paint(canvas, s, status ?? new FeedStatus { Recording = "flights/demo", Lines = 4321 }, view);
        return canvas.ToString();
    }

    private static void Shows(Snapshot s, ScreenId screen, params string[] words)
    {
        foreach ((int width, int height) in Sizes)
        {
            string text = Paint(s, new View { Screen = screen }, width, height);
            foreach (string word in words)
                Assert.True(text.Contains(word, StringComparison.Ordinal),
                    $"no \"{word}\" at {width}×{height}:\n{text}");
        }
    }

    [Fact]
    public void Overview_in_the_descent_tells_place_height_rate_phase_landing_receivers_and_alarms() =>
        Shows(DemoSnapshots.Descent(), ScreenId.Flight, "DESCENT", "19 314 m", "-19.0 m/s", "heard 1 s ago",
            "T+01:46:40",
            "48.41687N 13.91853E", "48.39675N 14.30431E", "2.4 × 1.2 km along 081°", "95 of 100", "11:21 ±3 min",
                "radio1",
            "1.0 fix/s", "LINK LOST 42 s", "CAUTION", "advisory", "Check the plug of radio2", "callout 2",
                "30 000 m at 10:40:00",
            "recording, 4321 lines", "▲", "◆", "●", "Altitude", "30 km");

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
    public void Where_is_it() => Shows(DemoSnapshots.Descent(), ScreenId.Where, "Where is it?", "launch", "burst",
        "landing",
        "chase", "50 km", "↑N", "├", "track", "95 of 100", "48.41687N 13.91853E");

    [Fact]
    public void How_high() => Shows(DemoSnapshots.Descent(), ScreenId.High, "How high is it?",
        "burst 30 000 m at 10:40:00",
        "Vertical rate", "T+0", "2:00", "descent at sea level -5.2 m/s ±5 %, measured", "+5", "highest 30 000 m");

    [Fact]
    public void Where_will_it_land() => Shows(DemoSnapshots.Silence(), ScreenId.Land, "Where will it land?",
        "by model, not heard", "from launch", "from expected", "400 m above sea level, as at the launch", "11:21 ±3 min", "in 26 min",
        "±2.1 × 1.2 km along 081°", "±5.2 × 3.0 km along 081°", "wind above 20 km 61 %", "last wind only",
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
    public void With_many_alarms_the_chosen_one_is_in_full_and_none_is_missing()
    {
        Snapshot s = DemoSnapshots.Descent();
        AlarmState one = s.Alarms[1];
        s = s with
        {
            Alarms = [.. s.Alarms, .. Enumerable.Range(0, 9)
            .Select(i => one with { Id = $"x-{i}", Cause = $"Cause {i}." })]
        };
        string text = Paint(s, new View { Screen = ScreenId.Wrong, ChosenAlarm = "x-4" }, 80, 24);
        for (int i = 0; i < 9; i++) Assert.Contains($"Cause {i}.", text);
        Assert.Contains("Link to radio2 lost", text);
        Assert.Single(text.Split(one.NextStep)[1..]);
    }

    [Fact]
    public void What_is_the_wind() => Shows(DemoSnapshots.Descent(), ScreenId.Wind, "What is the wind?", "from", "±",
        "●",
        "WNW", "m/s", "up", "▒", "bars reach to", "no forecast in the plan");

    [Fact]
    public void A_forecast_stands_beside_the_measured_wind()
    {
        Snapshot s = DemoSnapshots.Descent();
        Core.Air.WindVector wind = Core.Air.WindVector.FromDirection(180, 10);
        Shows(s with { Foretold = [new(new(0), wind), new(new(40_000), wind)] }, ScreenId.Wind, "off by", "◇");
    }

    [Fact]
    public void Can_I_believe_it() => Shows(DemoSnapshots.Descent(), ScreenId.Believe, "Can I believe it?",
        "6400 fixes believed",
        "64 refused", "checksum 31", "truncated 4", "9 of 11 used, dB-Hz", "not tracked", "horizontal jump: 4210 m",
        "accepted", "$GNGGA,104000.00");

    [Fact]
    public void A_rejected_line_is_shown_with_its_verdict_and_without_its_escapes()
    {
        Snapshot s = DemoSnapshots.Descent();
        string text = Paint(s, new View { Screen = ScreenId.Believe }, 160, 48);
        Assert.Contains("bad checksum $GNGGA,103959.00,48?[2J", text);
        Assert.DoesNotContain("://", text);
    }

    [Fact]
    public void What_is_wrong() => Shows(DemoSnapshots.Descent(), ScreenId.Wrong, "CAUTION", "not acknowledged",
        "link-lost",
        "Link to radio2 lost 42 s ago", "One receiver is left.", "Check the plug of radio2.", "ADVISORY",
            "acknowledged",
        "battery-low", "since 09:50:00");

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

    [Fact]
    public void Help_lists_every_key_at_the_smallest_size()
    {
        FeedStatus replay = new() { IsReplay = true };
        string[] pages = [.. Enumerable.Range(1, 3).Select(p => Paint(DemoSnapshots.Descent(), new View { HelpPage = p }, 80, 24, replay))];
        Assert.Contains("Keys everywhere, 1 of 3", pages[0]);
        Assert.Contains("? the replay's keys, any other key goes back", pages[1]);
        Assert.Contains("any key goes back", Paint(DemoSnapshots.Descent(), new View { HelpPage = 2 }, 80, 24));
        foreach (string words in (string[])["wheel", "drag", "draw the screen anew", "expected, not heard"])
            Assert.Contains(words, pages[0]);
        string text = string.Concat(pages);
        foreach (KeyUse use in Keys.All)
        {
            Assert.True(text.Contains(use.Does, StringComparison.Ordinal), $"no \"{use.Does}\" in\n{text}");
            Assert.Contains(use.Cap, text);
        }

        foreach ((_, _, string question) in Keys.Screens) Assert.Contains(question, text);
    }

    [Fact]
    public void Every_screen_shows_the_standing_lines_the_screens_and_the_way_to_the_keys()
    {
        foreach (ScreenId screen in Enum.GetValues<ScreenId>())
        {
            Shows(DemoSnapshots.Silence(), screen, "NOT HEARD 8 min 20 s", "10:55:00", "T+01:55:00", "WARNING",
                "~12 038 m",
                "recording", "1 Flight", "9 Log", "? keys", "q quit", "a acknowledge");
        }
    }

    [Fact]
    public void A_replay_shows_its_rate_and_its_keys()
    {
        FeedStatus status = new() { IsReplay = true, Rate = "10×", Loop = "loop from 10:00:00Z" };
        string text = Paint(DemoSnapshots.Ascent(), new View(), 80, 24, status);
        Assert.Contains("replay 10×, loop from 10:00:00Z", text);
        Assert.Contains("space hold", text);
        Assert.Contains("replay HELD", Paint(DemoSnapshots.Ascent(), new View(), 80, 24,
            status with { Paused = true }));
        Assert.Contains("replay ended", Paint(DemoSnapshots.Ascent(), new View(), 80, 24,
            status with { Ended = true }));
    }

    [Fact]
    public void A_debrief_wraps_and_scrolls_at_the_smallest_size()
    {
        FeedStatus status = new()
        {
            IsReplay = true,
            Debrief = [.. Enumerable.Range(1, 40).Select(i => $"  line {i} " + string.Concat(Enumerable.Repeat("word ", i == 1 ? 20 : 1)))],
        };
        string text = Paint(DemoSnapshots.Ascent(), new View { Debrief = true }, 80, 24, status);
        Assert.Contains("Debrief", text);
        Assert.Contains("line 1 word", text);
        Assert.DoesNotContain("line 30", text);
        View below = new() { Debrief = true, Back = 25 };
        Assert.Contains("line 30", Paint(DemoSnapshots.Ascent(), below, 80, 24, status));
    }

    [Fact]
    public void A_recording_that_fails_is_a_warning_on_every_screen() =>
        Assert.Contains("NOT RECORDING: received.nmea: disk full",
        Paint(DemoSnapshots.Ascent(), new View { Screen = ScreenId.Say }, 80, 24,
            new FeedStatus { Recording = "x", Fault = "received.nmea: disk full" }));

    [Fact]
    public void Customary_units_are_shown_throughout()
    {
        foreach (ScreenId screen in Enum.GetValues<ScreenId>().Where(i =>
            i is not (ScreenId.Say or ScreenId.Wrong or ScreenId.Believe)))
        {
            string text = Paint(DemoSnapshots.Ascent() with { Alarms = [] },
                new View { Screen = screen, Units = (DisplayUnits.Customary, null) }, 120, 40);
            Assert.Contains(" ft", text);
            Assert.DoesNotContain(" m/s", text);
            Assert.DoesNotMatch(@"\d (k?m)\b(?! 61)(?<!20 km)", text);
        }
    }

    [Fact]
    public void The_longest_standing_line_fits_80_columns()
    {
        string text = Paint(DemoSnapshots.Silence(), new View { Units = (DisplayUnits.Customary, null) }, 80, 24);
        string first = text[..text.IndexOf('\n', StringComparison.Ordinal)];
        Assert.Matches(@"^10:55:00Z +T\+01:55:00 +descent\? +~39 494 ft +~-2 2\d\d ft/min +NOT HEARD 8 min 20 s$",
            first);
    }

    [Fact]
    public void Too_small_a_terminal_says_what_it_needs_and_still_the_figures_that_count()
    {
        string text = Paint(DemoSnapshots.Silence(), new View(), 60, 20);
        Assert.Contains("needs 80×24, has 60×20", text);
        Assert.Contains("NOT HEARD 8 min 20 s", text);
        Assert.Contains("48.39675N 14.30431E", text);
        Assert.Contains("WARNING", text);
    }

    [Fact]
    public void No_size_and_no_snapshot_throws_or_lets_a_control_character_through()
    {
        (int, int)[] sizes = [(0, 0), (1, 1), (2, 1), (1, 40), (7, 3), (79, 24), (80, 23), (80, 24), (81, 25),
            (97, 31), (109, 24), (110, 29), (300, 90)];
        foreach (Snapshot? s in DemoSnapshots.All.Values.Append(null))
        {
            foreach (ScreenId screen in Enum.GetValues<ScreenId>())
            {
                foreach ((int width, int height) in sizes)
                {
                    string text = Paint(s, new View { Screen = screen, Back = 5, Chosen = 9, ChosenAlarm = "gone" }, width, height);
                    Assert.DoesNotContain(text, c => char.IsControl(c) && c != '\n');
                }
            }
        }
    }

    [Fact]
    public void A_second_later_only_a_few_cells_differ()
    {
        // What a slow link has to carry: digits of clocks and countdowns, not whole plots.
        Snapshot s = DemoSnapshots.Descent();
        string now = Paint(s, new View(), 160, 48), later = Paint(s with { Utc = s.Utc.PlusSeconds(1) }, new View(),
            160, 48);
        Assert.Equal(now.Length, later.Length);
        Assert.InRange(now.Zip(later).Count(pair => pair.First != pair.Second), 1, 12);
    }

    [Fact]
    public void In_ascii_every_screen_is_ascii()
    {
        foreach (Snapshot s in DemoSnapshots.All.Values)
            foreach (ScreenId screen in Enum.GetValues<ScreenId>())
                Assert.DoesNotContain(Paint(s, new View { Screen = screen }, 120, 40, ascii: true), c => c > '~');
    }
}
