using System.Buffers.Binary;
using System.Runtime.InteropServices;
using Groundstation.Core.Earth;

namespace Groundstation.Io.Terrain;

/// <summary>
/// One SRTM tile in memory: n × n heights in whole metres above mean sea level (EGM96 geoid), rows from north to
/// south, columns from west to east, the outer ones lying on the tile's edges and shared with its neighbours.
/// Layout: 16-bit signed, most significant byte first, no header (SRTM_Topo; checked against tiles that an
/// independent reader decoded).
/// </summary>
public sealed class HgtTile
{
    /// <summary>The sample that means "not measured".</summary>
    private const short Void = -32768;

    private readonly short[] _samples;
    private readonly int _side;

    private HgtTile(HgtCorner corner, int side, short[] samples)
    {
        Corner = corner;
        _side = side;
        _samples = samples;
    }

    /// <summary>Its south-west corner.</summary>
    public HgtCorner Corner { get; }

    /// <summary>Samples a side for a file of that length: 1201 (3″) or 3601 (1″); null when it is no tile.</summary>
    public static int? SideOf(long fileLength) => fileLength switch
    {
        1201L * 1201 * sizeof(short) => 1201,
        3601L * 3601 * sizeof(short) => 3601,
        _ => null,
    };

    /// <summary>Reads a tile whole.</summary>
    /// <param name="path">The file.</param>
    /// <param name="corner">Its corner, from its name.</param>
    /// <exception cref="IOException">It cannot be read, or its length is no tile's.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static HgtTile Read(string path, HgtCorner corner)
    {
        using Microsoft.Win32.SafeHandles.SafeFileHandle file = File.OpenHandle(path);
        int side = SideOf(RandomAccess.GetLength(file)) ?? throw new EndOfStreamException("length is no tile's");
        short[] samples = GC.AllocateUninitializedArray<short>(side * side);
        Span<byte> bytes = MemoryMarshal.AsBytes(samples.AsSpan());
        for (int at = 0; at < bytes.Length;)
        {
            int got = RandomAccess.Read(file, bytes[at..], at);
            if (got == 0)
                throw new EndOfStreamException("file became shorter while it was read");
            at += got;
        }

        if (BitConverter.IsLittleEndian)
            BinaryPrimitives.ReverseEndianness(samples, samples);
        return new(corner, side, samples);
    }

    /// <summary>
    /// Height of the ground, bilinear between the four samples around the point. A void sample is left out and the
    /// others share its weight, so that −32768 never leaks into a height; null when every sample that counts is void.
    /// </summary>
    /// <param name="point">A point in the tile or on its edge; one outside is taken at the nearest edge.</param>
    public HeightMsl? HeightAt(GeoPoint point)
    {
        double step = _side - 1;
        double y = Math.Clamp((Corner.SouthDeg + 1 - point.LatitudeDeg) * step, 0, step);
        double x = Math.Clamp((point.LongitudeDeg - Corner.WestDeg) * step, 0, step);
        // On the southern and eastern edges the last cell counts: there is no cell beyond the shared samples.
        int row = Math.Min((int)y, _side - 2), column = Math.Min((int)x, _side - 2);
        double south = y - row, east = x - column;

        int northWest = row * _side + column;
        double sum = 0, weights = 0;
        Add(_samples[northWest], (1 - south) * (1 - east));
        Add(_samples[northWest + 1], (1 - south) * east);
        Add(_samples[northWest + _side], south * (1 - east));
        Add(_samples[northWest + _side + 1], south * east);
        return weights > 0 ? new HeightMsl(sum / weights) : null;

        void Add(short sample, double weight)
        {
            if (sample == Void)
                return;
            sum += weight * sample;
            weights += weight;
        }
    }
}
