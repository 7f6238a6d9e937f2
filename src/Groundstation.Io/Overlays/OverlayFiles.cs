using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Overlays;

/// <summary>
/// Reads the user's own map files, GeoJSON (RFC 7946) and GPX: polygons are areas to keep out of, lines and points are
/// kept to be drawn. The first thing wrong ends it with one line that names the file.
/// </summary>
public static class OverlayFiles
{
    /// <summary>Largest file read, bytes: a country's coast at 100 m has about 5 MB.</summary>
    public const int MaxBytes = 16 << 20;

    /// <summary>Most positions in all files together: as many as can be asked about at every fix.</summary>
    public const int MaxPositions = 300_000;

    /// <summary>Reads files, in their order.</summary>
    /// <exception cref="UserErrorException">One is missing, too large, or not what it should be.</exception>
    public static Core.Plan.Overlays Read(IEnumerable<string> paths)
    {
        OverlayBuilder builder = new();
        foreach (string path in paths)
        {
            builder.Begin(path);
            byte[] bytes = Bytes(path);
            if (Path.GetExtension(path).Equals(".gpx", StringComparison.OrdinalIgnoreCase)) GpxOverlay.Read(bytes, builder);
            else GeoJsonOverlay.Read(bytes, builder);
        }

        return builder.Done();
    }

    private static byte[] Bytes(string path)
    {
        try
        {
            return SmallFile.Read(path, MaxBytes) ?? throw new UserErrorException(
                $"{path}: too large for a map file (at most {MaxBytes >> 20} MiB); simplify it");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be read ({FileTrouble.Words(e)})", e);
        }
    }
}

/// <summary>Collects what the files hold, with its limits and errors.</summary>
internal sealed class OverlayBuilder
{
    private const int LongestName = 60;

    private readonly ImmutableArray<KeepOut>.Builder _areas = ImmutableArray.CreateBuilder<KeepOut>();
    private readonly ImmutableArray<OverlayLine>.Builder _lines = ImmutableArray.CreateBuilder<OverlayLine>();
    private readonly ImmutableArray<OverlayPoint>.Builder _points = ImmutableArray.CreateBuilder<OverlayPoint>();
    private string _file = "";
    private int _positions;

    /// <summary>What follows comes from a file.</summary>
    public void Begin(string file) => _file = file;

    /// <summary>An area, a line, a point.</summary>
    public void Area(string? name, string? kind, ImmutableArray<AreaPart> parts)
    {
        string word = Clean(kind) is { Length: > 0 } given ? given : "area";
        // An alarm must name it. Not by its file: the copy in a flight folder has another name, and must ring the same.
        string own = Clean(name) is { Length: > 0 } said ? said : $"{word} {_areas.Count + 1}";
        _areas.Add(new(own, word, parts));
    }

    /// <inheritdoc cref="Area"/>
    public void Line(string? name, string? kind, ImmutableArray<GeoPoint> points) =>
        _lines.Add(new(Clean(name), Clean(kind), points));

    /// <inheritdoc cref="Area"/>
    public void Point(string? name, string? kind, GeoPoint at) => _points.Add(new(Clean(name), Clean(kind), at));

    /// <summary>A position, checked.</summary>
    /// <param name="where">Which part of the file, for the error line.</param>
    /// <param name="latitudeDeg">Latitude.</param>
    /// <param name="longitudeDeg">Longitude; beyond 180 it goes on round the earth.</param>
    public GeoPoint Position(string where, double latitudeDeg, double longitudeDeg)
    {
        if (++_positions > OverlayFiles.MaxPositions)
            throw Wrong(where, $"more than {OverlayFiles.MaxPositions} positions in all map files; simplify them");
        if (!(Math.Abs(latitudeDeg) <= 90 && Math.Abs(longitudeDeg) <= 360))
            throw Wrong(where, "positions are longitude, latitude in degrees (longitude first)");
        return new(latitudeDeg, longitudeDeg);
    }

    /// <summary>The error for something in the file.</summary>
    public UserErrorException Wrong(string where, string what) =>
        new($"{_file}: {(where.Length > 0 ? where + ": " : "")}{what}");

    /// <summary>All of it.</summary>
    public Core.Plan.Overlays Done() => new()
    {
        KeepOuts = _areas.ToImmutable(),
        Lines = _lines.ToImmutable(),
        Points = _points.ToImmutable(),
    };

    private static string Clean(string? text)
    {
        string line = string.Join(' ', (text ?? "").Split([' ', .. (text ?? "").Where(UserErrorException.IsUnseen)],
            StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= LongestName ? line : line[..(LongestName - 1)] + "…";
    }
}
