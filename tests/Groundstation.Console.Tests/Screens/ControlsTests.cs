using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

public class ControlsTests
{
    private readonly FakeFeed _feed = new() { Newest = DemoSnapshots.Descent() };

    private Controls Press(params string[] keys)
    {
        Controls controls = new(_feed);
        foreach (string key in keys) controls.Press(key);
        return controls;
    }

    private Controls Type(string first, string text, string last) =>
        Press([first, .. text.Select(c => c.ToString()), last]);

    [Fact]
    public void Digits_choose_the_screen()
    {
        for (int i = 1; i <= 9; i++)
            Assert.Equal((ScreenId)i, Press(i.ToString(System.Globalization.CultureInfo.InvariantCulture)).View.Screen);
    }

    [Theory]
    [InlineData("Enter")]
    [InlineData("Esc")]
    [InlineData("n")]
    [InlineData("q")]
    [InlineData("Ctrl+C")]
    [InlineData(" ")]
    public void Quitting_asks_and_anything_but_y_goes_on(string answer)
    {
        Controls controls = Press("q", answer);
        Assert.False(controls.Quit);
        Assert.Null(controls.View.Prompt);
    }

    [Fact]
    public void Quitting_asks_and_y_stops() => Assert.True(Press("q", "y").Quit);

    [Fact]
    public void Ctrl_C_asks_too()
    {
        Assert.Equal("quit", Press("Ctrl+C").View.Prompt?.Verb);
        Assert.True(Press("Ctrl+C", "y").Quit);
    }

    [Theory]
    [InlineData("a")]
    [InlineData("n")]
    [InlineData("c")]
    [InlineData("8", "x")]
    [InlineData("L", "G", "y")]
    public void A_console_that_follows_says_why_a_key_does_nothing(params string[] keys)
    {
        _feed.Status = new() { Following = true, Recording = "flights/copy", Lines = 7 };
        Assert.Contains("only looks on", Press(keys[..Math.Min(keys.Length, 2)]).View.Prompt!.Question);
        Assert.Null(Press([.. keys, "Esc", "Esc"]).View.Prompt);
        Assert.DoesNotContain(_feed.Acts, a => a.Verb.Length > 0);
        Assert.Contains("following, 7 lines", Painted.Paint(_feed.Newest!, new View(), 80, 24, _feed.Status));
    }

    [Theory]
    [InlineData("420 m", "420.0")]
    [InlineData("1400 ft", "426.7")]
    public void Ground_may_be_typed_with_its_unit(string typed, string metres)
    {
        Type("g", typed, "Enter");
        Assert.Equal([new OperatorAct("ground-height", metres)], _feed.Acts);
    }

    [Fact]
    public void Ground_typed_without_a_unit_is_in_the_screens()
    {
        _feed.Newest = _feed.Newest! with { Units = DisplayUnits.Customary };
        Assert.StartsWith("feet above sea level", Press("g").View.Prompt!.Hint);
        Type("g", "1400", "Enter");
        Assert.Equal([new OperatorAct("ground-height", "426.7")], _feed.Acts);
        Assert.Contains("between -1640 and 29528 ft", Type("g", "99999", "Enter").View.Prompt!.Complaint);
    }

    [Fact]
    public void Without_a_program_that_reads_aloud_the_key_for_it_says_so()
    {
        Assert.Contains("[speech]", Press("8", "s").View.Prompt!.Question);
        Assert.Empty(_feed.Acts);
    }

    [Fact]
    public void Acknowledge_takes_the_worst_open_alarm_and_on_its_screen_the_chosen_one()
    {
        Press("a");
        Press("7", "Down", "a");
        Press("7", "s");
        Assert.Equal([new("acknowledge", "link-lost"), new("acknowledge", "battery-low"), new("shelve", "link-lost")],
            _feed.Acts);
    }

    [Fact]
    public void A_note_is_typed_corrected_and_kept()
    {
        Controls controls = Press("n", "g", "o", "x", "Backspace", " ", "3", "?", "Enter");
        Assert.Equal([new OperatorAct("note", "go 3?")], _feed.Acts);
        Assert.Null(controls.View.Prompt);
    }

    [Fact]
    public void Esc_drops_a_note()
    {
        Type("n", "secret", "Esc");
        Assert.Empty(_feed.Acts);
    }

    [Fact]
    public void The_chase_cars_place_is_checked_before_it_counts()
    {
        Controls controls = Type("c", "48.5", "Enter");
        Assert.Contains("needs latitude and longitude", controls.View.Prompt!.Complaint);
        Assert.Contains("latitude", Type("c", "98 13", "Enter").View.Prompt!.Complaint);
        Assert.Empty(_feed.Acts);
        Type("c", "48.5, -13.25", "Enter");
        Assert.Equal([new OperatorAct("chase-position", "48.500000,-13.250000")], _feed.Acts);
    }

    [Fact]
    public void The_grounds_height_is_checked()
    {
        Assert.Contains("number", Type("g", "high", "Enter").View.Prompt!.Complaint);
        Type("g", "412.5", "Enter");
        Assert.Equal([new OperatorAct("ground-height", "412.5")], _feed.Acts);
    }

    [Fact]
    public void Marks_need_a_yes()
    {
        Press("l", "Enter");
        Press("b", "y");
        Assert.Equal([new OperatorAct("mark-burst", "")], _feed.Acts);
    }

    [Fact]
    public void Read_back_goes_to_the_callout_shown()
    {
        Press("8", "y");
        Press("8", "Up", "x");
        Assert.Equal([new("read-back", "2 correct"), new("read-back", "1 wrong")], _feed.Acts);
    }

    [Fact]
    public void A_new_alarm_does_not_put_another_one_under_the_hand()
    {
        Controls controls = Press("7", "Down");
        AlarmState chosen = _feed.Newest!.Alarms[1];
        _feed.Newest = _feed.Newest with { Alarms = [chosen with { Id = "new" }, .. _feed.Newest.Alarms] };
        controls.Press("a");
        Assert.Equal([new OperatorAct("acknowledge", chosen.Id)], _feed.Acts);
    }

    [Fact]
    public void A_switch_of_units_is_an_act_too()
    {
        Press("u", "u");
        Assert.Equal([new("units", "customary"), new("units", "metric")], _feed.Acts);
    }

    [Fact]
    public void Units_switch_from_the_plans()
    {
        Assert.Equal(DisplayUnits.Customary, Press("u").View.UnitsOver(_feed.Newest));
        Assert.Equal(DisplayUnits.Metric, Press("u", "u").View.UnitsOver(_feed.Newest));
    }

    [Fact]
    public void A_later_switch_in_the_recording_is_not_hidden_by_ones_own()
    {
        View view = Press("u").View;
        Assert.Equal(DisplayUnits.Customary, view.UnitsOver(_feed.Newest! with { Units = DisplayUnits.Customary }));
        Assert.Equal(DisplayUnits.Metric, view.UnitsOver(_feed.Newest! with { Units = DisplayUnits.Metric }));
    }

    [Fact]
    public void Replay_keys_work_in_a_replay_only()
    {
        Press(" ", ">", "<");
        Assert.Equal(0, _feed.Pauses);
        _feed.Status = new() { IsReplay = true };
        Press(" ", ">", ">", "<");
        Assert.Equal((1, 1), (_feed.Pauses, _feed.RateSteps));
        Press("[", "]", "]", "e", "r", "d", "Esc");
        Assert.Equal(["-1", "1", "1", "fix", "loop", "debrief"], _feed.Asked);
    }

    [Fact]
    public void The_feed_is_told_when_the_alarms_are_looked_at_and_left()
    {
        Press("7", "1");
        Assert.Equal([true, false], _feed.InSight);
    }

    [Fact]
    public void A_moment_is_typed_and_one_that_is_not_understood_stays_in_the_prompt()
    {
        _feed.Status = new() { IsReplay = true };
        Assert.Null(Press("t", "b", "u", "r", "s", "t", "Enter").View.Prompt);
        Assert.Equal(["to burst"], _feed.Asked);
        Controls controls = Press("t", "x", "Enter");
        Assert.Equal("x", controls.View.Prompt!.Typed);
        Assert.NotEqual("", controls.View.Prompt.Complaint);
    }

    [Fact]
    public void Help_opens_and_any_key_closes_it()
    {
        Assert.Equal(1, Press("?").View.HelpPage);
        Assert.Equal(2, Press("?", "?").View.HelpPage);
        Assert.Equal(0, Press("?", "?", "?").View.HelpPage);
        Controls controls = Press("?", "4");
        Assert.Equal(0, controls.View.HelpPage);
        Assert.Equal(ScreenId.Land, controls.View.Screen);
    }

    [Fact]
    public void No_key_stands_for_two_things_on_one_screen()
    {
        foreach (ScreenId screen in Enum.GetValues<ScreenId>())
        {
            string[] keys = [.. Keys.On(screen, true).SelectMany(k => k.Keys)];
            Assert.Equal(keys.Length, keys.Distinct().Count());
        }
    }

    [Fact]
    public void On_every_screen_the_keys_of_the_help_do_something_and_no_others()
    {
        string[] named = [.. Keys.All.SelectMany(k => k.Keys), "Enter", "Esc", "Backspace", "Delete", "Tab"];
        string[] all = [.. Enumerable.Range(' ', 95).Select(c => ((char)c).ToString()), .. named];
        foreach (bool replay in (bool[])[false, true])
        {
            _feed.Status = new() { IsReplay = replay };
            foreach (ScreenId screen in Enum.GetValues<ScreenId>())
            {
                HashSet<string> helped = [.. Keys.On(screen, replay).SelectMany(k => k.Keys), .. Keys.Screens.Select(s => Keys.Of(s.Id))];
                foreach (string key in all.Distinct())
                {
                    Controls controls = Press(Keys.Of(screen));
                    Assert.True(controls.Press(key) == helped.Contains(key), $"{key} on {screen}");
                }
            }
        }
    }
}
