using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Exports;

/// <summary>What a thing on the map is: decides its colour where the format knows colours.</summary>
public enum MapRole
{
    /// <summary>Measured.</summary>
    Flown,

    /// <summary>As planned before launch.</summary>
    Planned,

    /// <summary>Estimated during the flight.</summary>
    Estimated,
}

/// <summary>A point of a track, or a place. Datum WGS 84.</summary>
/// <param name="Position">Where.</param>
/// <param name="Height">How high; null when not known or on the ground.</param>
/// <param name="Utc">When; null when it has no time.</param>
public readonly record struct MapPoint(GeoPoint Position, HeightMsl? Height = null, Instant? Utc = null);

/// <summary>A line through the air. A gap in what was heard begins a new segment.</summary>
/// <param name="Name">Its name for people.</param>
/// <param name="Role">What it is.</param>
/// <param name="Segments">Points in the order of time.</param>
public sealed record MapTrack(string Name, MapRole Role, ImmutableArray<ImmutableArray<MapPoint>> Segments)
{
    /// <summary>What else is to be told of it.</summary>
    public ImmutableArray<MapAttribute> Attributes { get; init; } = [];
}

/// <summary>A named place.</summary>
/// <param name="Name">Its name for people.</param>
/// <param name="Role">What it is.</param>
/// <param name="At">Where, how high and when.</param>
public sealed record MapPlace(string Name, MapRole Role, MapPoint At)
{
    /// <summary>What else is to be told of it.</summary>
    public ImmutableArray<MapAttribute> Attributes { get; init; } = [];
}

/// <summary>An area on the ground.</summary>
/// <param name="Name">Its name for people.</param>
/// <param name="Role">What it is.</param>
/// <param name="Ring">Its border, counterclockwise seen from above, not closed; see <see cref="AreaRing"/>.</param>
public sealed record MapArea(string Name, MapRole Role, ImmutableArray<GeoPoint> Ring)
{
    /// <summary>From when it held; null: always.</summary>
    public Instant? From { get; init; }

    /// <summary>Until when it held; null: to the end.</summary>
    public Instant? Until { get; init; }

    /// <summary>What else is to be told of it.</summary>
    public ImmutableArray<MapAttribute> Attributes { get; init; } = [];
}

/// <summary>
/// A flight for map programs, whatever the format: write it with <see cref="GeoJson"/>, <see cref="Gpx"/> or
/// <see cref="Kml"/>. Texts may come from outside; each writer escapes them.
/// </summary>
/// <param name="Name">The flight's name.</param>
/// <param name="Description">In a sentence or two; may be empty.</param>
public sealed record MapData(string Name, string Description)
{
    /// <summary>Tracks.</summary>
    public ImmutableArray<MapTrack> Tracks { get; init; } = [];

    /// <summary>Places.</summary>
    public ImmutableArray<MapPlace> Places { get; init; } = [];

    /// <summary>Areas.</summary>
    public ImmutableArray<MapArea> Areas { get; init; } = [];
}
