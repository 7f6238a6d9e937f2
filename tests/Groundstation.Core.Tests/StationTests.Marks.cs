using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>What the operator tells that no stage takes.</summary>
public partial class StationTests
{
    private readonly Station _told = new(FlightPlan.Default, new Log());

    private Snapshot Act(string verb, string argument = "")
    {
        _told.Act(Start, new OperatorAct(verb, argument));
        return _told.Snapshot();
    }

    [Fact]
    public void A_mark_stands_beside_the_phase_and_the_log_says_so()
    {
        Snapshot s = Act("mark-launch");
        Assert.Equal(Start, s.Marks.Launch);
        Assert.Equal(Phase.Pad, s.Flight.Phase);
        Assert.Equal("Operator marks the launch; the tracker is not heard: from here on by plan and model", s.Events[^1].Text);
    }

    [Fact]
    public void Units_are_chosen_by_their_names_only()
    {
        Assert.Null(Act("note", "go").Units);
        Assert.Equal(DisplayUnits.Customary, Act("units", "customary").Units);
        Snapshot wrong = Act("units", "furlongs");
        Assert.Equal(DisplayUnits.Customary, wrong.Units);
        Assert.EndsWith("(could not be carried out)", wrong.Events[^1].Text.ToString());
    }

    [Fact]
    public void Where_the_ground_comes_from_is_told()
    {
        Assert.Equal(GroundOrigin.Unknown, _told.Snapshot().GroundFrom);
        Assert.Equal(GroundOrigin.Operator, Act("ground-height", "420").GroundFrom);
        Assert.Equal(GroundOrigin.Plan, new Station(FlightPlan.Default with { LandingGround = new HeightMsl(300) },
            new Log()).Snapshot().GroundFrom);
    }
}
