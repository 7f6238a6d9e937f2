using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Xunit;
using static Groundstation.Console.Tests.Screens.Painted;

namespace Groundstation.Console.Tests.Screens;

/// <summary>What holds for every screen, and what can cover it.</summary>
public class EveryScreenTests
{
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

        foreach ((_, _, _, string question) in Keys.Screens) Assert.Contains(question, text);
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
        Assert.Contains("replay HELD, 10×", Paint(DemoSnapshots.Ascent(), new View(), 80, 24,
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
    public void A_cause_of_the_area_wraps_behind_a_unit_not_before_it()
    {
        Snapshot s = DemoSnapshots.Descent();
        foreach (int words in Enumerable.Range(1, 60))
        {
            Saying causes = $"{new string('x', words)} wind 20 to {Measure.Level(12_000)} 55 %, wind above {Measure.Level(20_000)} 27 %";
            Snapshot told = s with { Landing = s.Landing! with { Causes = causes } };
            Assert.DoesNotMatch(@"(?m)^ *(km|%)", Paint(told, new View { Screen = ScreenId.Land }, 80, 24)
                .Split("because of")[1].Split("last wind")[0].TrimEnd());
        }
    }

    [Fact]
    public void A_cause_is_not_cut_between_a_figure_and_its_unit()
    {
        Saying cause = $"Descent rate {Measure.VerticalRate(1.64)} at sea level, limit {Measure.VerticalRate(2.5)}";
        Snapshot s = DemoSnapshots.Descent() with
        {
            Alarms = [new AlarmState("descent-slow", Severity.Advisory, AlarmPhase.Unacknowledged, cause, "", "", default, 1,
                null)],
        };
        string text = Paint(s, new View { Units = (DisplayUnits.Customary, null) }, 80, 24);
        Assert.Contains("ADVISORY Descent rate 323 ft/min at sea level, limit…", text.Split('\n')[1]);
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

    [Fact]
    public void With_nothing_received_no_panel_is_empty_without_a_word()
    {
        Snapshot s = DemoSnapshots.Nothing();
        (ScreenId Screen, string Words)[] said =
        [
            (ScreenId.Flight, "Nothing heard yet"), (ScreenId.Where, "no place heard yet"), (ScreenId.High, "no height heard yet"),
            (ScreenId.Land, "No estimate yet"), (ScreenId.Wind, "Nothing measured yet"), (ScreenId.Believe, "none yet"),
            (ScreenId.Wrong, "no alarm stands"), (ScreenId.Say, "Nothing yet"), (ScreenId.Happened, "Nothing yet"),
            (ScreenId.Chase, "no estimate yet"), (ScreenId.Ready, "nothing heard yet"),
        ];
        foreach ((ScreenId screen, string words) in said)
        {
            foreach ((int width, int height) in ((int, int)[])[(80, 24), (120, 40), (200, 60)])
                Assert.Contains(words, Paint(s, new View { Screen = screen }, width, height));
        }
    }

    [Fact]
    public void After_a_launch_that_nobody_heard_it_is_said_where_to_look_and_no_rate_is_shown()
    {
        Snapshot s = DemoSnapshots.Nothing();
        string text = Paint(s with
        {
            Marks = new OperatorMarks(s.Utc.PlusSeconds(-40), null),
            Flight = s.Flight with { PhaseHeard = false, VerticalRateMps = 5 },
        }, new View { Screen = ScreenId.Flight }, 80, 24);
        Assert.Contains("Launched, and nothing heard: check antenna", text);
        Assert.Contains("no rate", text);
    }

    [Theory]
    [InlineData(1, "when the next one begins")]
    [InlineData(10, "may have no sky")]
    public void Sentences_of_the_first_second_are_not_taken_for_a_tracker_without_sky(double afterS, string words)
    {
        Snapshot s = DemoSnapshots.Nothing();
        ReceiverHealth begun = new()
        {
            Source = new SourceId("radio1"),
            Accepted = 2,
            Rejected = [],
            InView = [],
            SentencesPerSecond = 2,
            FirstByte = s.Arrival.PlusSeconds(-afterS),
            LastByte = s.Arrival,
        };
        Assert.Contains(words, Paint(s with { Receivers = [begun] }, new View { Screen = ScreenId.Flight }, 80, 24)
            .Replace("\n", " ", StringComparison.Ordinal));
    }
}
