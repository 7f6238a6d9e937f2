using System.IO.Compression;

namespace Groundstation.Core.Earth;

/// <summary>
/// Height of the EGM96 geoid above the WGS 84 ellipsoid, for receivers that do not say theirs. NGA's 15-minute grid,
/// interpolated bilinearly; within 0.05 m of the same grid at full precision. <c>egm96-15min.md</c> beside this file
/// tells where it comes from.
/// </summary>
public static class Geoid
{
    private const int Rows = 721;
    private const int Columns = 1440;
    private const double PerDegree = 4;

    private static readonly Lazy<short[]> Grid = new(Unpack);

    /// <summary>Geoid above ellipsoid, metres (−107 to 85).</summary>
    /// <param name="at">Latitude −90 to 90, any longitude.</param>
    public static double SeparationM(GeoPoint at)
    {
        short[] grid = Grid.Value;
        double y = (Math.Clamp(at.LatitudeDeg, -90, 90) + 90) * PerDegree;
        double x = (at.LongitudeDeg + 180) * PerDegree;
        x -= Columns * Math.Floor(x / Columns);
        int row = Math.Min((int)y, Rows - 2);
        int west = (int)x % Columns;
        int east = (west + 1) % Columns;
        (double north, double toEast) = (y - row, x - Math.Floor(x));
        int south = row * Columns;
        double low = grid[south + west] + (grid[south + east] - grid[south + west]) * toEast;
        south += Columns;
        double high = grid[south + west] + (grid[south + east] - grid[south + west]) * toEast;
        return (low + (high - low) * north) / 10;
    }

    private static short[] Unpack()
    {
        using Stream packed = typeof(Geoid).Assembly.GetManifestResourceStream("egm96-15min.deflate")
            ?? throw new InvalidOperationException("The geoid grid is missing from the program: build it again.");
        using var plain = new MemoryStream();
        using (var deflate = new DeflateStream(packed, CompressionMode.Decompress))
            deflate.CopyTo(plain);
        ReadOnlySpan<byte> bytes = plain.GetBuffer().AsSpan(0, (int)plain.Length);
        var grid = new short[Rows * Columns];
        int next = 0;
        for (int i = 0; i < grid.Length; i++)
        {
            int value = bytes[next++];
            if (value == 255)
            {
                value = bytes[next] | (bytes[next + 1] << 8);
                next += 2;
            }

            bool first = i % Columns == 0;
            int expected = (first ? 0 : grid[i - 1])
                + (i < Columns ? 0 : grid[i - Columns] - (first ? 0 : grid[i - Columns - 1]));
            grid[i] = (short)(expected + ((value >> 1) ^ -(value & 1)));
        }

        return grid;
    }
}
