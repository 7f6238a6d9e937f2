using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Plan;
using Groundstation.Core.Readiness;
using Groundstation.Io.PlanFile;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>The launch checklist as the operator sees and works it.</summary>
public class ReadyScreenTests
{
    private static Snapshot Pad(params string[] confirmed) => DemoSnapshots.Nothing() with
    {
        Plan = PlanReader.Parse(ExamplePlan.Text, "p"),
        Confirmed = [.. confirmed],
    };

    private static string Paint(Snapshot s, View view, int width, int height)
    {
        Canvas canvas = new(false);
        canvas.Reset(width, height);
        Painter.Paint(canvas, s, new FeedStatus { Recording = "flights/demo" }, view);
        return canvas.ToString();
    }

    [Theory]
    [InlineData(80, 24)]
    [InlineData(160, 48)]
    public void All_points_the_verdict_and_the_keys_are_in_sight(int width, int height)
    {
        string text = Paint(Pad("gloves"), new View { Screen = ScreenId.Ready }, width, height);
        foreach ((_, string label, _) in PeopleItems.All) Assert.Contains(label, text);
        foreach (LaunchCheck check in LaunchReadiness.Of(Pad()).Station) Assert.Contains(check.Label, text);
        int people = PeopleItems.All.Length;
        foreach (string words in (string[])[$"NOT READY, {people} open: 3-D fix, {people - 1} for people to "
            + "confirm", $"1 of {people}", "done Gloves", "nothing heard yet",
            "Not decided yet. G go, X no-go", "Enter done", "L Go"])
            Assert.Contains(words, text);
        Assert.Equal(width >= 160, text.Contains("NECK LIFT", StringComparison.Ordinal));
    }

    [Fact]
    public void Room_on_the_disk_is_a_figure_that_fits() => Assert.Contains("Room on disk   412 GB 99+ flights ",
        Paint(Pad() with { DiskFreeMb = 412_300 }, new View { Screen = ScreenId.Ready }, 80, 24));

    [Theory]
    [InlineData(80, 24)]
    [InlineData(160, 48)]
    public void The_fill_sheet_is_one_key_away_and_scrolls(int width, int height)
    {
        string text = Paint(Pad(), new View { Screen = ScreenId.Ready, FillSheet = true }, width, height);
        Assert.Contains("NECK LIFT", text);
        Assert.Contains("water jug", text);
        Assert.Contains("time to fill", Paint(Pad(), new View { Screen = ScreenId.Ready, FillSheet = true, Chosen = 8 },
            width, height));
        Assert.Contains("No balloon in the plan", Paint(Pad() with { Plan = FlightPlan.Default },
            new View { Screen = ScreenId.Ready, FillSheet = true }, width, height));
    }

    [Fact]
    public void All_done_is_ready_and_the_decision_stays_in_sight()
    {
        Snapshot s = Pad([.. PeopleItems.All.Select(i => i.Id)]) with
        {
            FixHeldS = 400,
            Decision = new LaunchDecision(DemoSnapshots.Nothing().Utc, true, "nothing open; doubtful: chase"),
        };
        string text = Paint(s, new View { Screen = ScreenId.Ready }, 80, 24);
        Assert.Contains("READY, people decide about:", text);
        Assert.Contains("decided 09:00:00 GO, nothing open", text);
    }

    [Fact]
    public void A_decision_against_a_long_list_is_not_cut_in_the_middle_of_it()
    {
        Snapshot s = Pad() with
        {
            Decision = new LaunchDecision(DemoSnapshots.Nothing().Utc, true, "open: " + string.Join(", ",
                PeopleItems.All.Select(i => i.Id)) + "; doubtful: limit, clock, chase, terrain, winds, plan"),
        };
        string text = Paint(s, new View { Screen = ScreenId.Ready }, 80, 24);
        Assert.Contains("decided 09:00:00 GO, what was open then stands in the log, key 9", text);
        Assert.DoesNotContain("…", text);
    }

    [Fact]
    public void Points_are_confirmed_taken_back_and_decided_by_keys()
    {
        FakeFeed feed = new() { Newest = Pad("permission") };
        Controls controls = new(feed);
        Assert.True(controls.Press("L"));
        controls.Press("Enter");
        controls.Press("Down");
        controls.Press("Enter");
        controls.Press("G");
        Assert.Contains($"Go AGAINST {PeopleItems.All.Length} open points?", controls.View.Prompt!.Question);
        controls.Press("n");
        controls.Press("G");
        controls.Press("y");
        controls.Press("X");
        controls.Press("y");
        Assert.Equal([new("withdraw", "permission"), new("confirm", "daylight"), new("go", ""), new("no-go", "")],
            feed.Acts);
        controls.Press("p");
        Assert.True(controls.View.FillSheet);
        controls.Press("Enter");
        Assert.Equal(4, feed.Acts.Count);
        controls.Press("1");
        Assert.Equal(ScreenId.Flight, controls.View.Screen);
    }
}
