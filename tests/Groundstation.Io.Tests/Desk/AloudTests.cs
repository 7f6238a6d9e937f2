using Groundstation.Core;
using Groundstation.Core.Plan;
using Xunit;

namespace Groundstation.Io.Tests.Desk;

/// <summary>A replay that reads its callouts aloud; a shell script stands in for the speech program.</summary>
public sealed class AloudTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    private string Said => File.Exists(_temp["said.txt"]) ? File.ReadAllText(_temp["said.txt"]) : "";

    [Fact]
    public void Callouts_are_read_while_it_plays_and_when_asked_for_but_not_in_a_rush_or_a_jump()
    {
        if (!File.Exists("/bin/sh")) Assert.Skip("needs /bin/sh");
        FlightPlan plan = FlightPlan.Default with
        {
            Speech = new SpeechSettings("/bin/sh", ["-c", "cat >> " + _temp["said.txt"]]),
        };
        using DeskFlight flight = new(2, plan);
        flight.Desk.ReadAloud();
        // A jump over the launch and its callout.
        Assert.NotEmpty(flight.GoTo("T+3:00").Callouts);
        Assert.Equal("", Said);

        flight.GoTo("launch");
        flight.Desk.TogglePause();
        DeskFlight.Until(() => Said.Contains("Mission Control", StringComparison.Ordinal));
        string first = Said;

        flight.Desk.SetRate(200);
        DeskFlight.Until(() => flight.Desk.Newest.Callouts.Length >= 3);
        Assert.Equal(first, Said);

        flight.Desk.Act(new OperatorAct("speak", "1"));
        DeskFlight.Until(() => Said == first + first);
    }

    [Fact]
    public void A_plan_without_a_program_is_told_in_one_line()
    {
        using DeskFlight flight = new();
        UserErrorException none = Assert.Throws<UserErrorException>(flight.Desk.ReadAloud);
        Assert.Contains("[speech]", none.Message);
        flight.GoTo("T+3:00");
        flight.Desk.Act(new OperatorAct("speak", "1"));
        DeskFlight.Until(() => flight.Desk.Status.Said == "to hear it, start with --speak");
    }
}
