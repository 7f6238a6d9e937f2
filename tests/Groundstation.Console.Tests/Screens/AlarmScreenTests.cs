using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Xunit;
using static Groundstation.Console.Tests.Screens.Painted;

namespace Groundstation.Console.Tests.Screens;

/// <summary>The list of alarms, and what other screens say of it.</summary>
public class AlarmScreenTests
{
    [Fact]
    public void What_is_wrong() => Shows(DemoSnapshots.Descent(), ScreenId.Wrong, "CAUTION", "not acknowledged",
        "link-lost", "Link to radio2 lost 42 s ago", "One receiver is left.", "Check the plug of radio2.", "ADVISORY",
        "acknowledged", "battery-low", "since 09:50:00");

    [Fact]
    public void With_many_alarms_the_chosen_one_is_in_full_and_none_is_missing()
    {
        Snapshot s = DemoSnapshots.Descent();
        AlarmState one = s.Alarms[1];
        s = s with
        {
            Alarms = [.. s.Alarms, .. Enumerable.Range(0, 9)
            .Select(i => one with
            {
                Id = $"x-{i}",
                Cause = $"Cause {i}.",
                Phase = i == 7 ? AlarmPhase.ReturnedUnacknowledged : AlarmPhase.Unacknowledged,
            })]
        };
        string text = Paint(s, new View { Screen = ScreenId.Wrong, ChosenAlarm = "x-4" }, 80, 24);
        for (int i = 0; i < 9; i++) Assert.Contains($"Cause {i}.", text);
        Assert.Contains("Link to radio2 lost", text);
        Assert.Single(text.Split(one.NextStep)[1..]);
        Assert.Contains("over      Cause 7.", text);
    }

    [Fact]
    public void An_alarm_s_name_and_number_do_not_run_into_each_other()
    {
        Snapshot s = DemoSnapshots.Descent();
        AlarmState shelved = s.Alarms[0] with
        {
            Id = "altitude-limit",
            Phase = AlarmPhase.Shelved,
            ShelvedUntil = s.Utc.PlusSeconds(900),
            Order = 2,
        };
        Snapshot two = s with
        {
            Alarms = [shelved, s.Alarms[1] with { Order = 1, Id = "launch",
            Phase = AlarmPhase.ReturnedUnacknowledged, Since = s.Utc.PlusSeconds(-3287) }]
        };
        string text = Paint(two, new View { Screen = ScreenId.Wrong }, 80, 24);
        Assert.Matches(@"no\. 2 +altitude-limit", text);
        Assert.Matches(@"first out +launch  since \d\d:\d\d:\d\d\r?\n", text);
    }

    [Fact]
    public void Alarms_that_are_over_are_not_counted_as_standing()
    {
        Snapshot s = DemoSnapshots.Descent();
        int all = s.Alarms.Count(a => a.Standing);
        Snapshot over = s with
        {
            Alarms = [.. s.Alarms.Select(a => a with { Phase = AlarmPhase.ReturnedUnacknowledged })],
        };
        Shows(s, ScreenId.Flight, $" {all} standing");
        Shows(over, ScreenId.Flight, $" {over.Alarms.Length} over");
        Assert.DoesNotContain("standing", Paint(over, new View(), 80, 24));
    }
}
