using System.Globalization;
using Groundstation.Console.Feeds;
using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Readiness;

namespace Groundstation.Console.Screens;

/// <summary>
/// What a key does to the view, and which act it hands to the station. Knows nothing of the terminal.
/// </summary>
internal sealed partial class Controls(ISnapshotFeed feed)
{
    /// <summary>How the operator looks at the flight.</summary>
    public View View { get; private set; } = new();

    /// <summary>True once the operator has answered that the station shall stop.</summary>
    public bool Quit { get; private set; }

    /// <summary>
    /// Drags the plan view by cells, right and down positive; false on other screens or when it is less than a step.
    /// </summary>
    public bool Drag(int columns, int rows, int width, int height)
    {
        if (View.Screen != ScreenId.Where || View.HelpPage > 0 || View.Prompt is not null) return false;
        int east = -(int)Math.Round(columns * 8.0 / width), north = (int)Math.Round(rows * 8.0 / height);
        View = View with { PanEast = View.PanEast + east, PanNorth = View.PanNorth + north };
        return east != 0 || north != 0;
    }

    /// <summary>Takes one key by its name; false when it means nothing here.</summary>
    public bool Press(string key)
    {
        if (View.Prompt is { } prompt)
        {
            Answer(prompt, key);
            return true;
        }

        if (View.HelpPage > 0)
        {
            bool next = key is "?" or "h" && View.HelpPage < HelpScreen.Pages(feed.Status.IsReplay);
            View = View with { HelpPage = next ? View.HelpPage + 1 : 0 };
            if (key is "?" or "h" or "Esc" or "Enter" or " ") return true;
        }

        if (View.Debrief && Leaf(key)) return true;

        if (Keys.ScreenOf(key) is { } screen)
        {
            View = View with { Screen = screen, Back = 0, ChosenAlarm = "", Chosen = 0, FillSheet = false };
            feed.AlarmsInSight(screen == ScreenId.Wrong);
            return true;
        }

        // The sheet is longer than a small terminal; its title tells these two.
        if (View is { Screen: ScreenId.Land, Sheet: true } && key is ("Up" or "Down"))
        {
            View = View with { Back = Math.Max(0, View.Back + (key == "Down" ? 5 : -5)) };
            return true;
        }

        KeyUse? use = Keys.On(View.Screen, feed.Status.IsReplay).FirstOrDefault(k => k.Keys.Contains(key));
        if (use is null) return false;
        Do(use, key);
        return true;
    }

    /// <summary>
    /// Turns the debrief's pages; any other key puts it away. False when the key is then for the screen.
    /// </summary>
    private bool Leaf(string key)
    {
        int step = key switch { "Up" => -1, "Down" => 1, "PageUp" => -15, "PageDown" or " " => 15, _ => 0 };
        View = step == 0 ? View with { Debrief = false, Back = 0 }
            : View with { Back = Math.Clamp(View.Back + step, 0, Math.Max(0, feed.Status.Debrief.Count - 5)) };
        return step != 0 || key is "Esc" or "Enter" or "d";
    }

    private void Do(KeyUse use, string key)
    {
        View v = View;
        if (use.Acts && feed.Status.Following)
        {
            Tell("This console only looks on: the sharing station acts.");
            return;
        }

        switch (use.Cap)
        {
            case "+ -": View = v with { Zoom = Math.Clamp(v.Zoom + (key is "+" or "=" ? 1 : -1), -6, 12) }; break;
            case "arrows": View = Scrolling.Move(v, key); break;
            case "f" when v.Screen == ScreenId.Say:
                View = v with { Back = 0 };
                feed.Post(new OperatorAct("full-callout", ""));
                break;
            case "f": View = v with { Follow = (Follow)(((int)v.Follow + 1) % 3), PanEast = 0, PanNorth = 0 }; break;
            case "Home": View = v with { Follow = Follow.Everything, Zoom = 0, PanEast = 0, PanNorth = 0 }; break;
            case "up down": View = Scrolling.Scroll(v, key, feed.Newest); break;
            case "s" when v.Screen == ScreenId.Land:
                View = v with { Sheet = !v.Sheet, Back = 0 };
                if (View.Sheet) feed.Post(new OperatorAct("search-sheet", ""));
                break;
            case "s" when v.Screen == ScreenId.Say && feed.Newest?.Plan.Speech.Program is null:
                Tell("No program reads aloud: the plan names none under [speech].");
                break;
            case "s" when v.Screen == ScreenId.Say: OnCallout("speak"); break;
            case "s": Alarm("shelve"); break;
            case "a": Alarm("acknowledge"); break;
            case "y x": OnCallout("read-back", key == "y" ? " correct" : " wrong"); break;
            case "/": Ask("filter", "Show only lines that hold", "nothing shows all", true); break;
            case "Enter": Confirm(); break;
            case "G X": Decide(key == "G"); break;
            case "p": View = v with { FillSheet = !v.FillSheet, Chosen = 0 }; break;
            case "space": feed.TogglePause(); break;
            case "<": feed.ChangeRate(-1); break;
            case ">": feed.ChangeRate(1); break;
            case "t": Ask("go-to", "Go to", "T+1:10:00, 10:58:18, -30, burst …", true); break;
            case "[ ]": feed.StepSecond(key == "]" ? 1 : -1); break;
            case "e": feed.StepFix(); break;
            case "r": feed.MarkLoop(); break;
            case "d": feed.MakeDebrief(); View = v with { Debrief = true, Back = 0 }; break;
            case "n": Ask("note", "Note for the log", "Enter keeps it, Esc drops it", true); break;
            case "l": Ask("mark-launch", "Mark the launch now?", "y yes, anything else no", false); break;
            case "b": Ask("mark-burst", "Mark the burst now?", "y yes, anything else no", false); break;
            case "c":
                Ask("chase-position", "Chase car is at", "47.1234, -11.5678, or minutes, UTM, MGRS, locator", true);
                break;
            case "g":
                Ask("ground-height", "Ground at the landing is", v.UnitsOver(feed.Newest) == DisplayUnits.Customary
                    ? "feet above sea level: 1380, or metres: 420 m"
                    : "metres above sea level: 420, or feet: 1380 ft", true);
                break;
            case "m": View = v with { Muted = !v.Muted }; break;
            case "u": SwitchUnits(); break;
            case "?": View = v with { HelpPage = 1 }; break;
            case "q": Ask("quit", "Stop the station?", "y stops it, anything else goes on", false); break;
        }
    }

    /// <summary>At once on this screen, and as an act in the recording.</summary>
    private void SwitchUnits()
    {
        bool customary = View.UnitsOver(feed.Newest) == DisplayUnits.Customary;
        View = View with { Units = (customary ? DisplayUnits.Metric : DisplayUnits.Customary, feed.Newest?.Units) };
        feed.Post(new OperatorAct("units", customary ? "metric" : "customary"));
    }

    private void Confirm()
    {
        if (feed.Newest is not { } snapshot || View.FillSheet) return;
        string id = PeopleItems.All[View.Chosen].Id;
        bool done = snapshot.Confirmed.Contains(id);
        feed.Post(new OperatorAct(done ? "withdraw" : "confirm", id));
        // On to the next one: a list is worked from the top.
        if (!done) View = View with { Chosen = Math.Min(View.Chosen + 1, PeopleItems.All.Length - 1) };
    }

    private void Decide(bool go)
    {
        if (feed.Newest is not { } snapshot) return;
        int open = LaunchReadiness.Of(snapshot).Open.Count();
        string question = !go ? "No-go: hold the launch?" : open == 0 ? "Go: launch?"
            : string.Create(CultureInfo.InvariantCulture, $"Go AGAINST {open} open points?");
        Ask(go ? "go" : "no-go", question, "y yes, anything else no", false);
    }

    private void Alarm(string verb)
    {
        if (feed.Newest is not { } snapshot) return;
        AlarmState? alarm = View.Screen == ScreenId.Wrong
            ? snapshot.Alarms.ElementAtOrDefault(View.ChosenIn(snapshot.Alarms))
            : snapshot.Alarms.FirstOrDefault(a =>
                a.Phase is AlarmPhase.Unacknowledged or AlarmPhase.ReturnedUnacknowledged);
        if (alarm is null) return;
        if (verb == "shelve" && alarm.Phase == AlarmPhase.Shelved) verb = "unshelve";
        feed.Post(new OperatorAct(verb, alarm.Id));
    }

    /// <summary>An act on the chosen callout; its number is the argument, with what follows it.</summary>
    private void OnCallout(string verb, string rest = "")
    {
        if (feed.Newest is not { Callouts: { Length: > 0 } callouts }) return;
        int number = callouts[Math.Max(0, callouts.Length - 1 - View.Back)].Number;
        feed.Post(new OperatorAct(verb, string.Create(CultureInfo.InvariantCulture, $"{number}{rest}")));
    }
}
