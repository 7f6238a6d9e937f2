using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>An ellipse on the ground around <see cref="LandingEstimate.Position"/>.</summary>
/// <param name="MajorM">Semi-major axis, metres.</param>
/// <param name="MinorM">Semi-minor axis, metres, ≤ <paramref name="MajorM"/>.</param>
/// <param name="AzimuthDeg">Azimuth of the major axis, degrees clockwise from true north, 0 ≤ a &lt; 180.</param>
public readonly record struct SearchArea(double MajorM, double MinorM, double AzimuthDeg)
{
    /// <summary>Area, m².</summary>
    public double AreaM2 => Math.PI * MajorM * MinorM;
}

/// <summary>What the estimate rests on; the lower-case words are what <c>landing.csv</c> shows.</summary>
public enum LandingMethod
{
    /// <summary>Nothing believed was heard yet: the plan's flight. On screens only, never in <c>landing.csv</c>.</summary>
    Planned,

    /// <summary>Before launch or while climbing: ascent to the expected burst, then descent, through the wind column.</summary>
    Ascent,

    /// <summary>Falling: descent from the newest believed fix through the wind column.</summary>
    Descent,

    /// <summary>Level flight: it may come down at any moment, see <see cref="FloatOutlook"/>.</summary>
    Float,

    /// <summary>Not heard: the model goes on from the newest believed fix.</summary>
    Silent,

    /// <summary>Standing on the ground: the mean of the standing fixes.</summary>
    Landed,
}

/// <summary>One landing estimate: a row of <c>landing.csv</c>.</summary>
public sealed record LandingEstimate
{
    /// <summary>The moment it is made for, the station's UTC.</summary>
    public required Instant Utc { get; init; }

    /// <summary>Phase at that moment.</summary>
    public required Phase Phase { get; init; }

    /// <summary>Height of the payload at that moment: measured, or the model's when not heard.</summary>
    public required HeightMsl Altitude { get; init; }

    /// <summary>Best place to search: mean of the landing places.</summary>
    public required GeoPoint Position { get; init; }

    /// <summary>Height of the ground there.</summary>
    public required HeightMsl Ground { get; init; }

    /// <summary>Expected time of landing.</summary>
    public required Instant LandingUtc { get; init; }

    /// <summary>One standard deviation of the landing time, seconds.</summary>
    public double LandingSigmaS { get; init; }

    /// <summary>What it rests on.</summary>
    public required LandingMethod Method { get; init; }

    /// <summary>Holds the landing in half of all flights.</summary>
    public required SearchArea Area50 { get; init; }

    /// <summary>Holds the landing in 95 of 100 flights.</summary>
    public required SearchArea Area95 { get; init; }

    /// <summary>The plain estimate from the live descent rate and the last wind; null until there is one.</summary>
    public GeoPoint? LastWind { get; init; }

    /// <summary>Age of the newest believed fix, seconds.</summary>
    public required double HeardAgeS { get; init; }

    /// <summary>What makes the area as large as it is, largest first, in words ("wind above 20 km 61 %").</summary>
    public Saying Causes { get; init; } = Saying.None;

    /// <summary>The expected path for plots, in the order of time: from the newest believed fix, or in silence from where it should be now, to the ground.</summary>
    public ImmutableArray<Waypoint> Path { get; init; } = [];

    /// <summary>Some landing places of the ensemble, for plots; empty if there is none.</summary>
    public ImmutableArray<GeoPoint> Cloud { get; init; } = [];

    /// <summary>
    /// When the tracker should have a fix again, if it has none above its altitude limit; may be gone by.
    /// </summary>
    public Instant? HearAgainUtc { get; init; }

    /// <summary>Where that is, on the expected path.</summary>
    public GeoPoint? HearAgainAt { get; init; }

    /// <summary>
    /// True when a fix should be back, even when the burst is as late as the landing's doubt allows: it is no longer expected.
    /// </summary>
    public bool HearAgainOverdue => HearAgainUtc is { } back && Utc.SecondsSince(back) > Math.Max(60, 2 * LandingSigmaS);

    /// <summary>
    /// Where the expected path is at a moment, straight between its points; null once it has come down.
    /// </summary>
    public Waypoint? Expected(Instant at)
    {
        Waypoint? before = null, after = null;
        foreach (Waypoint w in Path)
        {
            if (w.Utc <= at && (before is null || w.Utc > before.Value.Utc)) before = w;
            if (w.Utc > at && (after is null || w.Utc < after.Value.Utc)) after = w;
        }

        if (after is not { } b) return null;
        if (before is not { } a) return b;
        double t = at.SecondsSince(a.Utc) / b.Utc.SecondsSince(a.Utc);
        double east = Math.IEEERemainder(b.Position.LongitudeDeg - a.Position.LongitudeDeg, 360);
        return new Waypoint(at, new GeoPoint(
            a.Position.LatitudeDeg + t * (b.Position.LatitudeDeg - a.Position.LatitudeDeg),
            Math.IEEERemainder(a.Position.LongitudeDeg + t * east, 360)),
            new HeightMsl(a.Height.Metres + t * (b.Height.Metres - a.Height.Metres)));
    }
}
