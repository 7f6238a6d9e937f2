using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Receive;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

public class ChaseScreenTests
{
    private static readonly (int Width, int Height)[] Sizes = [(80, 24), (120, 40), (160, 48)];

    private static void Shows(Snapshot s, params string[] words)
    {
        foreach ((int width, int height) in Sizes)
        {
            Canvas canvas = new();
            canvas.Reset(width, height);
            Painter.Paint(canvas, s, new FeedStatus(), new View { Screen = ScreenId.Chase });
            foreach (string word in words)
                Assert.True(canvas.ToString().Contains(word, StringComparison.Ordinal), $"no \"{word}\":\n{canvas}");
        }
    }

    private static Snapshot WithCar(double marginS, bool standing = false) => DemoSnapshots.Descent() is var s ? s with
    {
        Links = [.. s.Links, new LinkStatus(SourceId.Chase, LinkState.Lost, "the device is gone", s.Arrival.PlusSeconds(-75))],
        ChaseNow = new ChaseState
        {
            Position = new GeoPoint(48.62, 13.35),
            AgeS = 80,
            Typed = false,
            SpeedMps = standing ? null : 20,
            ClosingMps = standing ? null : -3,
            ToLanding = new GeodesicLine(74_300, 109, 110),
            ToBalloon = new GeodesicLine(47_500, 118, 119),
            ToLastHeard = new GeodesicLine(47_500, 118, 119),
            CountedMps = standing ? 14 : 20,
            SpeedFromPlan = standing,
            DriveS = 4830,
            LandingUtc = s.Landing!.LandingUtc,
            MarginS = marginS,
        },
    } : throw new InvalidOperationException();

    [Fact]
    public void It_tells_the_ways_the_speed_and_the_time_in_hand() => Shows(WithCar(620),
        "How does the chase stand?", "from its receiver, 1 min 20 s old", "LINK LOST 1 min 15 s", "48.62000N 13.35000E",
        "74.3 km at 109° ESE", "47.5 km at 118°", "20.0 m/s, mean of 10 min", "going away at 3.0 m/s", "1 h 20 min",
        "× 1.3 of the line", "be there by", "10 min 20 s in hand", "geo:48.39675,14.30431;u=", "0 Chase");

    [Fact]
    public void Too_late_is_said_and_a_standing_car_counts_from_now() =>
        Shows(WithCar(-400, true), "6 min 40 s LATE", "if it sets out now", "not known yet");

    [Fact]
    public void Without_a_car_it_says_how_to_tell_one() =>
        Shows(DemoSnapshots.Silence(), "Key c: type", "--chase");
}
