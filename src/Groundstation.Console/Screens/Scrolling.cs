using Groundstation.Core;
using Groundstation.Core.Readiness;

namespace Groundstation.Console.Screens;

/// <summary>What arrows and paging keys do to a view.</summary>
internal static class Scrolling
{
    /// <summary>Moves the plan view by an eighth of its size.</summary>
    public static View Move(View v, string key) => key switch
    {
        "Up" => v with { PanNorth = v.PanNorth + 1 },
        "Down" => v with { PanNorth = v.PanNorth - 1 },
        "Right" => v with { PanEast = v.PanEast + 1 },
        _ => v with { PanEast = v.PanEast - 1 },
    };

    /// <summary>Scrolls the screen's list, or chooses another row of it.</summary>
    public static View Scroll(View v, string key, Snapshot? newest)
    {
        if (v.Screen == ScreenId.Ready)
        {
            int end = v.FillSheet ? 30 : PeopleItems.All.Length - 1;
            return v with { Chosen = Math.Clamp(v.Chosen + (key == "Down" ? 1 : -1), 0, end) };
        }

        if (v.Screen == ScreenId.Wrong)
        {
            if (newest is not { Alarms: { Length: > 0 } alarms }) return v;
            int next = Math.Clamp(v.ChosenIn(alarms) + (key == "Down" ? 1 : -1), 0, alarms.Length - 1);
            return v with { ChosenAlarm = alarms[next].Id };
        }

        int rows = v.Screen == ScreenId.Say ? newest?.Callouts.Length ?? 0 : newest?.Events.Length ?? 0;
        int step = key switch
        {
            "Up" => 1,
            "Down" => -1,
            "PageUp" => 10,
            "PageDown" => -10,
            "Home" => rows,
            _ => -rows,
        };
        return v with { Back = Math.Clamp(v.Back + step, 0, Math.Max(0, rows - 1)) };
    }
}
