using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Flight;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>What is shown as the flight's state in silence.</summary>
public class ShownTests
{
    [Fact]
    public void In_silence_the_place_moves_on_along_the_expected_path()
    {
        Snapshot s = DemoSnapshots.Silence();
        // The path as made at the last fix; the place is where it leads by now, between two of its points.
        Snapshot early = s with
        {
            Landing = s.Landing! with { Path = DemoSnapshots.WholeFlight[640..] },
            Utc = s.Utc.PlusSeconds(5)
        };
        Waypoint a = DemoSnapshots.WholeFlight[690], b = DemoSnapshots.WholeFlight[691];
        Assert.Equal((a.Position.LongitudeDeg + b.Position.LongitudeDeg) / 2, Shown.Place(early)!.Value.LongitudeDeg,
            9);
        Assert.InRange(Shown.Rate(early)!.Value, -11.5, -11.2);
    }

    [Fact]
    public void The_order_of_the_path_does_not_matter()
    {
        Snapshot s = DemoSnapshots.Silence();
        Snapshot turned = s with { Landing = s.Landing! with { Path = [.. s.Landing.Path.Reverse()] } };
        Assert.Equal(Shown.Place(s), Shown.Place(turned));
        Assert.Equal(Shown.Rate(s), Shown.Rate(turned));
    }

    [Fact]
    public void Once_it_must_have_come_down_it_lies_at_the_estimate_and_does_not_move()
    {
        Snapshot s = DemoSnapshots.Silence();
        Snapshot late = s with { Utc = s.Landing!.LandingUtc.PlusSeconds(1800), HeardAgeS = 4000 };
        Assert.Equal(s.Landing.Position, Shown.Place(late));
        Assert.Equal(0, Shown.Rate(late));
    }

    [Fact]
    public void Silent_on_the_pad_it_stays_there_until_the_launch_is_marked()
    {
        Snapshot s = DemoSnapshots.Silence();
        Snapshot pad = s with { Flight = s.Flight with { Phase = Phase.Pad } };
        Assert.Equal(s.Flight.Newest!.Position, Shown.Place(pad));
        Assert.Equal(s.Flight.Newest.Height!.Value.Metres, Shown.Height(pad));
        Assert.Null(Shown.Rate(pad));
        Snapshot marked = pad with { Marks = pad.Marks with { Launch = s.Utc } };
        Assert.NotEqual(s.Flight.Newest.Position, Shown.Place(marked));
    }

    [Fact]
    public void While_heard_the_newest_fix_counts_and_not_the_model()
    {
        Snapshot s = DemoSnapshots.Descent();
        Assert.Equal(s.Flight.Newest!.Position, Shown.Place(s));
        Assert.Equal(s.Flight.VerticalRateMps, Shown.Rate(s));
        Assert.Equal("DESCENT", Shown.PhaseWord(s));
    }
}
