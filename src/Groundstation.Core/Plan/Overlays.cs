using System.Collections.Immutable;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Plan;

/// <summary>One piece of an area: its outline and the holes in it.</summary>
/// <param name="Outer">Outline.</param>
/// <param name="Holes">What is not part of it.</param>
public sealed record AreaPart(GeoRing Outer, ImmutableArray<GeoRing> Holes)
{
    /// <summary>True when the point lies inside and in no hole.</summary>
    public bool Contains(GeoPoint point) => Outer.Contains(point) && !Holes.Any(h => h.Contains(point));

    /// <summary>The same for points between two latitudes only; see <see cref="GeoRing.Between"/>.</summary>
    public AreaPart Between(double southDeg, double northDeg) =>
        new(Outer.Between(southDeg, northDeg), [.. Holes.Select(h => h.Between(southDeg, northDeg))]);
}

/// <summary>An area in which the payload shall not come down.</summary>
/// <param name="Name">Its name; never empty.</param>
/// <param name="Kind">What it is: <c>water</c>, <c>airport</c>, <c>border</c>, <c>built-up</c>, or the file's own word.</param>
/// <param name="Parts">Its pieces.</param>
public sealed record KeepOut(string Name, string Kind, ImmutableArray<AreaPart> Parts);

/// <summary>A line of the user's own map.</summary>
/// <param name="Name">Its name; may be empty.</param>
/// <param name="Kind">What it is, in the file's word; may be empty.</param>
/// <param name="Points">Its points, two at least.</param>
public sealed record OverlayLine(string Name, string Kind, ImmutableArray<GeoPoint> Points);

/// <summary>A point of the user's own map.</summary>
/// <param name="Name">Its name; may be empty.</param>
/// <param name="Kind">What it is, in the file's word; may be empty.</param>
/// <param name="Position">Where.</param>
public sealed record OverlayPoint(string Name, string Kind, GeoPoint Position);

/// <summary>The user's own map data: areas to keep out of, and lines and points to be drawn.</summary>
public sealed record Overlays
{
    /// <summary>Areas in which the payload shall not come down.</summary>
    public ImmutableArray<KeepOut> KeepOuts { get; init; } = [];

    /// <summary>Lines.</summary>
    public ImmutableArray<OverlayLine> Lines { get; init; } = [];

    /// <summary>Points.</summary>
    public ImmutableArray<OverlayPoint> Points { get; init; } = [];

    /// <summary>Nothing.</summary>
    public static readonly Overlays None = new();
}
