using System.Buffers.Binary;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Terrain;
using Xunit;

namespace Groundstation.Io.Tests.Terrain;

public sealed class HgtTerrainTests : IDisposable
{
    private const int Side = 1201;
    private const short Void = -32768;
    private readonly string _folder = Directory.CreateTempSubdirectory("terrain").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Write(string name, Func<int, int, short> height)
    {
        byte[] bytes = new byte[Side * Side * 2];
        for (int row = 0; row < Side; row++)
            for (int column = 0; column < Side; column++)
                BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(2 * (row * Side + column)), height(row, column));
        string path = Path.Combine(_folder, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    private double? At(double latitudeDeg, double longitudeDeg) =>
        HgtTerrain.Open(_folder).HeightAt(new(latitudeDeg, longitudeDeg))?.Metres;

    private static (double Latitude, double Longitude) Sample(double row, double column) =>
        (11 - row / (Side - 1), 20 + column / (Side - 1));

    [Theory]
    [InlineData("N35W098.hgt", 35, -98)]
    [InlineData("s01w079.HGT", -1, -79)]
    [InlineData("N00E179.SRTMGL1.hgt", 0, 179)]
    [InlineData("S90W180.hgt", -90, -180)]
    public void A_tiles_name_is_its_south_west_corner(string name, int south, int west)
    {
        Assert.True(HgtCorner.TryParse(name, out HgtCorner corner));
        Assert.Equal(new HgtCorner(south, west), corner);
    }

    [Theory]
    [InlineData("N90E000.hgt")]
    [InlineData("N35W181.hgt")]
    [InlineData("N35E180.hgt")]
    [InlineData("E35N098.hgt")]
    [InlineData("N3 W098.hgt")]
    [InlineData("N-5W098.hgt")]
    [InlineData("N35W098.tif")]
    [InlineData("N35W0985.hgt")]
    [InlineData("N35.hgt")]
    public void Other_names_are_no_tiles(string name) => Assert.False(HgtCorner.TryParse(name, out _));

    [Fact]
    public void A_void_sample_never_leaks_into_a_height()
    {
        Write("N10E020.hgt", (row, column) => row == 600 && column == 600 ? Void : (short)100);
        HgtTerrain terrain = HgtTerrain.Open(_folder);
        for (double row = 598.75; row <= 601.25; row += 0.25)
            for (double column = 598.75; column <= 601.25; column += 0.25)
            {
                (double latitude, double longitude) = Sample(row, column);
                if (terrain.HeightAt(new(latitude, longitude)) is { } height)
                    Assert.Equal(100, height.Metres, 9);
                else
                    Assert.Equal((600, 600), (row, column)); // unknown on the void sample itself and nowhere else
            }
    }

    [Fact]
    public void Inside_a_void_the_ground_is_unknown()
    {
        Write("N10E020.hgt", (row, _) => row is > 500 and < 700 ? Void : (short)1500);
        (double latitude, double longitude) = Sample(600.5, 30.5);
        Assert.Null(At(latitude, longitude));
        (latitude, longitude) = Sample(500.9, 30.5); // between a known row and a void one
        Assert.Equal(1500, At(latitude, longitude)!.Value, 9);
    }

    [Fact]
    public void Below_sea_level_is_a_height_like_any_other()
    {
        Write("N10E020.hgt", (_, _) => -413);
        Assert.Equal(-413, At(10.3, 20.7)!.Value, 9);
    }

    [Fact]
    public void Ground_is_continuous_across_the_edge_of_two_tiles()
    {
        Write("N10E020.hgt", (_, column) => (short)column);
        Write("N10E021.hgt", (_, column) => (short)(1200 + column));
        HgtTerrain terrain = HgtTerrain.Open(_folder);
        Assert.Equal(1200, terrain.HeightAt(new(10.5, 21))!.Value.Metres, 9);
        Assert.Equal(1199.988, terrain.HeightAt(new(10.5, 21 - 1e-5))!.Value.Metres, 6);
        Assert.Equal(1200.012, terrain.HeightAt(new(10.5, 21 + 1e-5))!.Value.Metres, 6);
    }

    [Fact]
    public void Shared_samples_serve_when_one_of_the_two_tiles_is_missing_or_void()
    {
        Write("N10E020.hgt", (_, _) => 700);
        (double, double)[] onTheEdge = [(10, 20), (11, 20), (10, 21), (11, 21), (11, 20.5)];
        foreach ((double latitude, double longitude) in onTheEdge)
            Assert.Equal(700, At(latitude, longitude)!.Value, 9);
        Assert.Null(At(11.0001, 20.5));
        Write("N11E020.hgt", (row, _) => row == 1200 ? Void : (short)900);
        Assert.Equal(700, At(11, 20.5)!.Value, 9);
    }

    [Fact]
    public void The_date_line_has_two_sides()
    {
        Write("N10E179.hgt", (_, column) => (short)column);
        Assert.Equal(1200, At(10.5, 180)!.Value, 9);
        Assert.Equal(1200, At(10.5, -180)!.Value, 9);
        Assert.Equal(600, At(10.5, 179.5)!.Value, 9);
        Write("N10W180.hgt", (_, column) => (short)(1200 + column));
        Assert.Equal(1200, At(10.5, 180)!.Value, 9);
        Assert.Equal(1800, At(10.5, -179.5)!.Value, 9);
    }

    [Fact]
    public void The_order_of_questions_changes_no_answer_and_more_tiles_than_are_held_do_no_harm()
    {
        for (int west = 20; west < 26; west++)
        {
            short height = (short)(west * 10);
            Write($"N10E0{west}.hgt", (_, _) => height);
        }

        HgtTerrain terrain = HgtTerrain.Open(_folder);
        foreach (int west in new[] { 20, 21, 22, 23, 24, 25, 20, 25, 22, 24, 23, 21 })
            Assert.Equal(west * 10, terrain.HeightAt(new(10.5, west + 0.5))!.Value.Metres, 9);
        Assert.Null(terrain.HeightAt(new(10.5, 26.5)));
        Assert.Null(terrain.HeightAt(new(double.NaN, 20)));
        Assert.Null(terrain.HeightAt(new(90, 20)));
    }

    [Fact]
    public void A_file_of_the_wrong_size_is_named_with_the_remedy()
    {
        string path = Write("N10E020.hgt", (_, _) => 0);
        using (FileStream file = new(path, FileMode.Open))
            file.SetLength(1_000_000);
        UserErrorException error = Assert.Throws<UserErrorException>(() => HgtTerrain.Open(_folder));
        Assert.Equal($"{path}: 1000000 bytes is no SRTM tile (2884802 for 3″, 25934402 for 1″); "
            + "get it again or remove it", error.Message);
    }

    [Fact]
    public void A_plans_relative_terrain_folder_starts_at_the_plan()
    {
        string home = Directory.CreateDirectory(Path.Combine(_folder, "home")).FullName;
        Write("N10E020.hgt", (_, _) => 250);
        string plan = Path.Combine(home, "plan.toml");
        File.WriteAllText(plan, "[landing]\nterrain_folder = \"..\"\n");
        HgtTerrain? terrain = HgtTerrain.Open(PlanReader.Read(plan).TerrainFolder!);
        Assert.Equal(250, terrain!.HeightAt(new(10.5, 20.5))!.Value.Metres, 9);
    }

    [Fact]
    public void A_folder_that_is_missing_or_without_tiles_is_refused_in_one_line()
    {
        File.WriteAllText(Path.Combine(_folder, "readme.txt"), "none");
        Assert.Contains("no SRTM tile in it",
            Assert.Throws<UserErrorException>(() => HgtTerrain.Open(_folder)).Message);
        string missing = Path.Combine(_folder, "nowhere");
        Assert.StartsWith(missing + ": no such terrain folder",
            Assert.Throws<UserErrorException>(() => HgtTerrain.Open(missing)).Message);
    }

    [Fact]
    public void A_tile_lost_in_flight_leaves_its_ground_unknown_and_says_so()
    {
        string path = Write("N10E020.hgt", (_, _) => 250);
        HgtTerrain terrain = HgtTerrain.Open(_folder);
        Assert.Null(terrain.Fault);
        File.Delete(path);
        Assert.Null(terrain.HeightAt(new(10.5, 20.5)));
        Assert.StartsWith(path + ": cannot be read", terrain.Fault);
    }
}
