using Groundstation.Core.Alarms;
using Groundstation.Core.Chase;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Xunit;

namespace Groundstation.Core.Tests.Alarms;

/// <summary>A value that is noisy about its limit for half an hour raises its alarm once at most.</summary>
public class ChatterTests
{
    private static readonly Instant Start = Instant.FromUnixMilliseconds(1_782_000_000_000);
    private static readonly GeoPoint Pad = new(47, 3.4);

    // Limit, and how far either side of it the value swings: less than the deadband.
    public static TheoryData<string, double, double> Limits => new()
    {
        { "ascent-slow", 2.5, 0.25 },
        { "ascent-fast", 9, 0.25 },
        { "descent-fast", 9, 0.4 },
        { "descent-slow", 2.5, 0.15 },
        { "battery-low", 3.3, 0.08 },
        { "box-cold", -30, 1.5 },
        { "box-hot", 60, 1.5 },
        { "bad-link", 0.2, 0.03 },
        { "far-from-pad", 200_000, 3000 },
        { "far-from-chase", 100_000, 1500 },
        { "chase-behind", 0, 60 },
        { "disk-low", 200, 30 },
        { "host-clock", 10, 1.5 },
    };

    [Theory, MemberData(nameof(Limits))]
    public void Noise_about_a_limit_does_not_make_an_alarm_chatter(string id, double limit, double swing)
    {
        AlarmBoard board = new(AlarmRules.All);
        List<string> words = [];
        for (int second = 0; second < 1800; second++)
        {
            // A minute on the bad side in between, so that it is raised at all; slow and fast swings otherwise.
            bool low = id is "ascent-slow" or "descent-slow" or "battery-low" or "box-cold" or "disk-low" or "chase-behind";
            double value = second is > 300 and < 400 ? limit + (low ? -swing : swing)
                : limit + swing * Math.Sin(second) * Math.Cos(second / 47.0);
            foreach (AlarmChange change in board.Evaluate(Input(id, value, second), Start.PlusSeconds(second)))
                if (change.Alarm.Id == id) words.Add(change.Word);
        }

        Assert.Equal(["raised"], words);
    }

    // Five minutes on either side are longer than any delay: only the deadband keeps the alarm from coming and going.
    [Theory, MemberData(nameof(Limits))]
    public void A_value_that_swings_slowly_within_the_deadband_raises_its_alarm_once(string id, double limit, double swing)
    {
        AlarmBoard board = new(AlarmRules.All);
        List<string> words = [];
        for (int second = 0; second < 3600; second++)
        {
            double value = limit + swing * Math.Sin(second * Math.PI / 300);
            foreach (AlarmChange change in board.Evaluate(Input(id, value, second), Start.PlusSeconds(second)))
                if (change.Alarm.Id == id) words.Add(change.Word);
        }

        Assert.Equal(["raised"], words);
    }

    private static ChaseState Car(double marginS) => new()
    {
        Position = Pad,
        AgeS = 0,
        Typed = false,
        DriveS = 600,
        LandingUtc = Start,
        MarginS = marginS,
    };

    private static AlarmInput Input(string id, double value, int second)
    {
        FlightPlan plan = new() { Alarms = new AlarmLimits { BatteryLowV = 3.3 } };
        Instant now = Start.PlusSeconds(second);
        Fix fix = new()
        {
            Source = new SourceId("radio1"),
            Heard = now,
            Utc = now,
            DateFrom = DateOrigin.Receiver,
            Position = id.StartsWith("far", StringComparison.Ordinal) ? Geodesic.Direct(Pad, 60, value) : Pad,
            Height = new HeightMsl(9000),
        };
        bool falls = id.StartsWith("descent", StringComparison.Ordinal);
        return new AlarmInput
        {
            Arrival = now,
            Started = Start,
            Plan = plan,
            HeardAgeS = 0,
            EpochAgeS = 0,
            Flight = new FlightState
            {
                Phase = falls ? Phase.Descent : Phase.Ascent,
                Launch = new Waypoint(Start.PlusSeconds(-600), Pad, default),
                VerticalRateMps = id.StartsWith("ascent", StringComparison.Ordinal) ? value : 5,
                DescentRateMeasured = true,
                DescentRateSeaLevelMps = falls ? value : 5,
                Newest = fix,
            },
            Telemetry = Telemetry.None with
            {
                BatteryV = id == "battery-low" ? value : 4,
                InsideC = id.StartsWith("box", StringComparison.Ordinal) ? value : 10,
            },
            Receivers =
            [
                new ReceiverHealth
                {
                    Source = new SourceId("radio1"),
                    SentencesPerSecond = 2,
                    RejectedShare = id == "bad-link" ? value : 0,
                    Rejected = [],
                    InView = [],
                },
            ],
            Pad = id == "far-from-pad" ? Pad : null,
            Chase = id == "far-from-chase" ? Car(0) : id == "chase-behind" ? Car(value) : null,
            DiskFreeMb = id == "disk-low" ? value : null,
            HostAheadS = id == "host-clock" ? value : 0,
        };
    }
}
