using Groundstation.Core.Earth;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Terrain;

/// <summary>
/// Height of the ground from a folder of SRTM tiles. Tiles are read when a point first needs them and at most four
/// are held: four meet at a corner, and 3601² samples of two bytes make 26 MB each, so it stays under 105 MB.
/// A reading depends on the files alone, never on what was asked before: a replay sees the ground that the flight saw.
/// For one thread.
/// </summary>
public sealed class HgtTerrain
{
    private const int MostTiles = 4;

    private readonly Dictionary<HgtCorner, string> _files;
    private readonly List<HgtTile> _tiles = new(MostTiles); // most recently used first

    private HgtTerrain(Dictionary<HgtCorner, string> files) => _files = files;

    /// <summary>
    /// A tile that could not be read after the folder was opened (a drive pulled out), in one line; null when all is
    /// well. Its ground counts as unknown from then on: the station goes on without it rather than stop in flight.
    /// </summary>
    public string? Fault { get; private set; }

    /// <summary>Opens a folder: finds its tiles by name and checks their lengths, reads none yet.</summary>
    /// <exception cref="UserErrorException">No such folder, no tile in it, or a file of the wrong size.</exception>
    public static HgtTerrain Open(string folder)
    {
        if (!Directory.Exists(folder))
            throw new UserErrorException(
                $"{folder}: no such terrain folder; give a folder that holds SRTM tiles such as N35W098.hgt");
        Dictionary<HgtCorner, string> files = [];
        try
        {
            // In name order, so that of two files for one corner the same one counts on every machine.
            foreach (string path in Directory.GetFiles(folder).Order(StringComparer.Ordinal))
            {
                if (!HgtCorner.TryParse(Path.GetFileName(path), out HgtCorner corner))
                    continue;
                long length = new FileInfo(path).Length;
                if (HgtTile.SideOf(length) is null)
                    throw new UserErrorException($"{path}: {length} bytes is no SRTM tile (2884802 for 3″, "
                        + "25934402 for 1″); get it again or remove it");
                files.TryAdd(corner, path);
            }
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{folder}: cannot be read ({FileTrouble.Words(e)}); check permissions", e);
        }

        return files.Count > 0
            ? new(files)
            : throw new UserErrorException($"{folder}: no SRTM tile in it; tiles are unpacked files named by their "
                + "south-west corner, such as N35W098.hgt");
    }

    /// <summary>
    /// Height of the ground at a point; null where no tile covers it or its samples are void. Two tiles share the
    /// samples on their edge: there, either of them will do.
    /// </summary>
    public HeightMsl? HeightAt(GeoPoint point)
    {
        if (!double.IsFinite(point.LatitudeDeg) || !double.IsFinite(point.LongitudeDeg))
            return null;
        double longitudeDeg = point.LongitudeDeg >= 180 ? point.LongitudeDeg - 360 : point.LongitudeDeg;
        int south = (int)Math.Floor(point.LatitudeDeg), west = (int)Math.Floor(longitudeDeg);
        HeightMsl? height = InTile(south, west);
        if (height is not null)
            return height;
        bool onParallel = point.LatitudeDeg == south, onMeridian = longitudeDeg == west;
        if (onParallel)
            height = InTile(south - 1, west);
        if (height is null && onMeridian)
            height = InTile(south, west - 1);
        if (height is null && onParallel && onMeridian)
            height = InTile(south - 1, west - 1);
        return height;

        HeightMsl? InTile(int southDeg, int westDeg)
        {
            // The date line is the western edge of W180 and the eastern edge of E179.
            HgtTile? tile = westDeg < -180 ? Tile(new(southDeg, westDeg + 360)) : Tile(new(southDeg, westDeg));
            return tile?.HeightAt(new(point.LatitudeDeg, westDeg < -180 ? longitudeDeg + 360 : longitudeDeg));
        }
    }

    private HgtTile? Tile(HgtCorner corner)
    {
        for (int i = 0; i < _tiles.Count; i++)
        {
            HgtTile held = _tiles[i];
            if (held.Corner != corner)
                continue;
            if (i > 0)
            {
                _tiles.RemoveAt(i);
                _tiles.Insert(0, held);
            }

            return held;
        }

        if (!_files.TryGetValue(corner, out string? path))
            return null;
        try
        {
            if (_tiles.Count == MostTiles)
                _tiles.RemoveAt(MostTiles - 1);
            HgtTile read = HgtTile.Read(path, corner);
            _tiles.Insert(0, read);
            return read;
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            _files.Remove(corner);
            Fault ??= $"{path}: cannot be read ({FileTrouble.Words(e)}); the ground there counts as unknown";
            return null;
        }
    }
}
