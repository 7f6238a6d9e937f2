using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Core.Simulation;

namespace Groundstation.Core.Tests.Simulation;

internal static class Flights
{
    /// <summary>A short flight in a sheared wind, without noise.</summary>
    public static Scenario Plain => new()
    {
        LaunchUtc = Instant.FromUtc(new(2027, 5, 8), TimeSpan.FromHours(9)),
        LaunchSite = new(46.5, 7.9),
        LaunchHeight = new(500),
        LandingGround = new(420),
        PadS = 30,
        AfterLandingS = 20,
        Balloon = new() { BurstHeight = new(8000) },
        Air = new()
        {
            Winds =
            [
                new(new(500), WindVector.FromDirection(200, 3)),
                new(new(5000), WindVector.FromDirection(260, 15)),
                new(new(9000), WindVector.FromDirection(280, 25)),
            ],
        },
    };

    /// <summary>The same with every random part at work.</summary>
    public static Scenario Rough => Plain with
    {
        Air = Plain.Air with { ChangeMps = 2, GustSurfaceMps = 1.5, GustAloftMps = 0.4 },
        Balloon = Plain.Balloon with { SwingDeg = 4 },
        Parachute = new() { SwingDeg = 10 },
        Receiver = new()
        {
            HorizontalSigmaM = 2,
            VerticalSigmaM = 4,
            JitterM = 0.5,
            SpeedSigmaMps = 0.1,
            TumbleLossDb = 15,
        },
    };
}
