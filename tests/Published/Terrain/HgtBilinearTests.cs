using System.Buffers.Binary;
using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Io.Terrain;
using nietras.SeparatedValues;
using Xunit;

namespace Groundstation.Published.Terrain;

/// <summary>
/// Against <c>hgt_bilinear.csv</c>: synthetic tiles by the formula in its first line, whose layout GDAL 3.6.2's SRTMHGT
/// driver read the same way, and whose bilinear heights scipy's map_coordinates confirmed.
/// </summary>
public sealed class HgtBilinearTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("hgt").FullName;

    [Fact]
    public void Heights_are_those_of_an_independent_reader()
    {
        string text = string.Concat(File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", "hgt_bilinear.csv"))
            .Where(line => !line.StartsWith('#')).Select(line => line + "\n"));
        using SepReader rows = Sep.New(',').Reader(o => o with { CultureInfo = CultureInfo.InvariantCulture })
            .FromText(text);
        List<(string File, GeoPoint Point, double Height)> expected = [];
        foreach (SepReader.Row row in rows)
        {
            string file = row["tile"].ToString();
            string path = Path.Combine(_folder, file);
            if (!File.Exists(path))
                File.WriteAllBytes(path, Tile(row["n"].Parse<int>()));
            expected.Add((file, new(row["lat"].Parse<double>(), row["lon"].Parse<double>()),
                row["bilinear_m"].Parse<double>()));
        }

        Assert.Equal(57, expected.Count);
        HgtTerrain terrain = HgtTerrain.Open(_folder);
        Assert.All(expected, e =>
        {
            HeightMsl? height = terrain.HeightAt(e.Point);
            Assert.NotNull(height);
            Assert.Equal(e.Height, height.Value.Metres, 0.0002); // printed with four decimals
        });
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static byte[] Tile(int side)
    {
        byte[] bytes = new byte[side * side * 2];
        for (int row = 0; row < side; row++)
            for (int column = 0; column < side; column++)
            {
                int value = (37 * row + 101 * column) % 1500 + row * column % 97 - 40;
                BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(2 * (row * side + column)), (short)value);
            }

        return bytes;
    }
}
