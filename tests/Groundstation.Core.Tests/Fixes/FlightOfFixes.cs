using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>A judge and a flight to give it fixes of, without bytes. Noise-free unless a test adds some.</summary>
internal sealed class FlightOfFixes(FlightPlan? plan = null, double periodS = 1)
{
    public static readonly Instant Start = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));

    private readonly FixJudge _judge = new(plan ?? FlightPlan.Default);

    /// <summary>Seconds since <see cref="Start"/>.</summary>
    public double At { get; set; }

    public double EastM { get; set; }

    public double NorthM { get; set; }

    public double HeightM { get; set; } = 300;

    public double EastMps { get; set; }

    public double UpMps { get; set; }

    public Telemetry Telemetry { get; set; } = Telemetry.None;

    /// <summary>Moves on by one period at the present velocity.</summary>
    public FlightOfFixes Move()
    {
        At += periodS;
        EastM += EastMps * periodS;
        HeightM += UpMps * periodS;
        return this;
    }

    /// <summary>The true fix of this moment, changed as the test likes.</summary>
    public Fix Here(Func<Fix, Fix>? change = null)
    {
        Instant utc = Start.PlusSeconds(At);
        var fix = new Fix
        {
            Source = new SourceId("radio1"),
            Heard = utc,
            Utc = utc,
            DateFrom = DateOrigin.Receiver,
            // Printed with five decimals of a minute, as most receivers do.
            Position = new GeoPoint(Math.Round((52 + NorthM / 111_195) * 6e6) / 6e6,
                Math.Round(EastM / 111_195 / Math.Cos(52 * Math.PI / 180) * 6e6) / 6e6),
            Height = new HeightMsl(Math.Round(HeightM, 1)),
            Quality = FixQuality.Autonomous,
            SatellitesUsed = 10,
            Hdop = 0.9,
            SpeedMps = Math.Abs(EastMps),
            CourseDeg = EastMps < 0 ? 270 : 90,
        };
        return Judge(change is null ? fix : change(fix));
    }

    public Fix Judge(Fix fix) => _judge.Judge(fix, Telemetry);

    /// <summary>So many periods of true fixes, all of which must be believed.</summary>
    public FlightOfFixes Fly(int periods)
    {
        for (int i = 0; i < periods; i++)
        {
            Fix fix = Move().Here();
            Assert.True(fix.Believed, FormattableString.Invariant($"at {At} s: {fix.Refused}: {fix.Detail}"));
        }

        return this;
    }

    /// <summary>An ascent at 5 m/s in 10 m/s of wind that has lasted five minutes.</summary>
    public static FlightOfFixes Ascending(FlightPlan? plan = null, double periodS = 1) =>
        new FlightOfFixes(plan, periodS) { EastMps = 10, UpMps = 5 }.Fly((int)(300 / periodS));

    /// <summary>The receiver says another height.</summary>
    public static Func<Fix, Fix> Height(double metres) => f => f with { Height = new HeightMsl(metres) };

    /// <summary>The receiver says a place so far north of the true one.</summary>
    public static Func<Fix, Fix> North(double metres) => f => f with
    {
        Position = f.Position!.Value with { LatitudeDeg = f.Position.Value.LatitudeDeg + metres / 111_195 },
    };
}
