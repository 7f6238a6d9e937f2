using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Published.Fixes;
using Xunit;

namespace Groundstation.Published.Landing;

/// <summary>
/// flight_*.nmea: whole flights through real soundings with receiver noise, and their computed landing
/// (flight_*_truth.csv, first line). No wind changes between ascent and descent in them.
/// </summary>
public class WholeFlights
{
    /// <summary>
    /// At burst nothing is heard yet of the canopy: the rate of descent must come from the plan, which states the truth's
    /// mass and drag area; everything else is the station's own.
    /// </summary>
    [Theory]
    [InlineData("flight_oun.nmea", 2023, 5, 22, 1.0, 30_000, 35.1474939, -96.7884363)]
    [InlineData("flight_boi_jet.nmea", 2010, 12, 9, 1.5, 29_000, 43.3252121, -114.1373567)]
    public void At_burst_the_estimate_is_within_150_m_and_the_area_holds_the_landing(
        string file, int year, int month, int day, double massKg, double burstM, double latitude, double longitude)
    {
        FlightPlan plan = FlightPlan.Default with
        {
            DescentMassKg = massKg,
            CanopyDragAreaM2 = 0.6,
            DescentRateLnSigma = 0.05,
            BurstHeight = new HeightMsl(burstM),
        };
        LandingEstimate atBurst = Estimates(file, new DateOnly(year, month, day), plan,
            static flight => flight.Phase == Phase.Descent).First();
        var truth = new GeoPoint(latitude, longitude);
        double off = Geodesic.DistanceM(atBurst.Position, truth);
        Assert.True(off < 150, string.Create(CultureInfo.InvariantCulture, $"{off:F0} m off"));
        Assert.True(Holds(atBurst.Area95, atBurst.Position, truth));
    }

    /// <summary>Without any plan, two minutes of descent tell the rate: the area must hold the landing all the way down.</summary>
    [Theory]
    [InlineData("flight_oun.nmea", 2023, 5, 22, 35.1474939, -96.7884363)]
    [InlineData("flight_boi_jet.nmea", 2010, 12, 9, 43.3252121, -114.1373567)]
    public void Without_a_plan_the_area_holds_the_landing_from_two_minutes_after_burst(
        string file, int year, int month, int day, double latitude, double longitude)
    {
        // Every minute of the descent: a fix each 5 s.
        int falling = 0;
        LandingEstimate[] later = [.. Estimates(file, new DateOnly(year, month, day), FlightPlan.Default,
            flight => flight.Phase == Phase.Descent && ++falling > 24 && falling % 12 == 0)];
        var truth = new GeoPoint(latitude, longitude);
        Assert.InRange(later.Length, 25, 60);
        Assert.All(later, e => Assert.True(Holds(e.Area95, e.Position, truth), $"{e.Altitude}: {e.Area95}"));
    }

    [Fact]
    public void The_flight_with_faults_lands_where_the_clean_one_does()
    {
        var day = new DateOnly(2023, 5, 22);
        LandingEstimate clean = Last("flight_oun.nmea"), faults = Last("flight_oun_faults.nmea");
        double apart = Geodesic.DistanceM(clean.Position, faults.Position);
        Assert.True(apart < 50, string.Create(CultureInfo.InvariantCulture, $"{apart:F0} m apart"));

        LandingEstimate Last(string file) => Estimates(file, day, FlightPlan.Default,
            static flight => flight.Newest!.Height!.Value.Metres < 1000).Last();
    }

    /// <summary>The estimates at the fixes that are asked for, as the flight goes on.</summary>
    private static IEnumerable<LandingEstimate> Estimates(string file, DateOnly day, FlightPlan plan,
        Func<FlightTracker, bool> due)
    {
        byte[] recording = File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "data", file));
        var tracker = new FlightTracker(plan);
        var estimator = new LandingEstimator(plan);
        foreach (Fix fix in new Replayed(recording, day, plan).Believed)
        {
            tracker.Fix(fix);
            if (due(tracker)) yield return estimator.Estimate(tracker, fix.Utc, false, null)!;
        }
    }

    private static bool Holds(SearchArea area, GeoPoint centre, GeoPoint truth)
    {
        GeodesicLine line = Geodesic.Inverse(centre, truth);
        double angle = (line.AzimuthDeg - area.AzimuthDeg) * Math.PI / 180;
        double along = line.DistanceM * Math.Cos(angle) / area.MajorM;
        double across = line.DistanceM * Math.Sin(angle) / area.MinorM;
        return along * along + across * across <= 1;
    }
}
