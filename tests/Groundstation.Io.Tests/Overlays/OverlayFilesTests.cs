using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.Overlays;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Overlays;

public sealed class OverlayFilesTests : IDisposable
{
    private const string Square = "[[3,47],[4,47],[4,48],[3,48],[3,47]]";

    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    private Core.Plan.Overlays Read(string text, string name = "map.geojson")
    {
        File.WriteAllText(_temp[name], text);
        return OverlayFiles.Read([_temp[name]]);
    }

    private static string Feature(string geometry, string properties = "{}") =>
        $$$"""{"type":"FeatureCollection","features":[{"type":"Feature","properties":{{{properties}}},"geometry":{{{geometry}}} } ]}""";

    [Fact]
    public void Polygons_are_areas_with_name_and_kind_and_lines_and_points_are_kept()
    {
        Core.Plan.Overlays map = Read($$$"""
            {"type":"FeatureCollection","bbox":[0,0,1,1],"features":[
            {"type":"Feature","properties":{"name":"Grey Lake","kind":"water","more":{"deep":[1]}},
             "geometry":{"type":"Polygon","coordinates":[{{{Square}}},[[3.4,47.4],[3.6,47.4],[3.5,47.6],[3.4,47.4]]]}},
            {"type":"Feature","properties":null,"geometry":{"type":"MultiPolygon","coordinates":[[{{{Square}}}]]}},
            {"type":"Feature","properties":{"name":"road"},"geometry":{"type":"LineString","coordinates":[[3,47,200],[4,48,210]]}},
            {"type":"Feature","properties":{},"geometry":null},
            {"type":"Feature","properties":{"name":"ferry"},"geometry":{"type":"GeometryCollection","geometries":[
             {"type":"Point","coordinates":[3.5,47.5]}]}}]}
            """);
        Assert.Equal(["Grey Lake water", "area 2 area"], map.KeepOuts.Select(k => $"{k.Name} {k.Kind}"));
        Assert.True(map.KeepOuts[0].Parts[0].Contains(new(47.1, 3.1)));
        Assert.False(map.KeepOuts[0].Parts[0].Contains(new(47.45, 3.5)));
        Assert.Equal("road", Assert.Single(map.Lines).Name);
        Assert.Equal(47.5, Assert.Single(map.Points).Position.LatitudeDeg);
    }

    [Fact]
    public void Gpx_gives_points_and_lines()
    {
        Core.Plan.Overlays map = Read("""
            <?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
            <wpt lat="47" lon="3"><name>mill</name></wpt>
            <trk><name>way</name><trkseg><trkpt lat="47" lon="3"/><trkpt lat="47.1" lon="3.1"/></trkseg></trk></gpx>
            """, "map.gpx");
        Assert.Equal("mill", Assert.Single(map.Points).Name);
        Assert.Equal(2, Assert.Single(map.Lines).Points.Length);
    }

    [Theory]
    [InlineData("nonsense", "line 1: not JSON")]
    [InlineData("[]", "no GeoJSON: it has no type")]
    [InlineData("{\"type\":\"FeatureCollection\"}", "without its list of features")]
    [InlineData("{\"type\":\"Circle\"}", "geometry: type is one of Point")]
    [InlineData("{\"type\":\"Point\",\"coordinates\":[\"a\",1]}", "a position is [longitude, latitude]")]
    [InlineData("{\"type\":\"Point\",\"coordinates\":[3,91]}", "longitude first")]
    [InlineData("{\"type\":\"Polygon\",\"coordinates\":[[[3,47],[4,47],[4,48],[3,48]]]}", "a ring ends where it begins")]
    [InlineData("{\"type\":\"Polygon\",\"coordinates\":[[[3,47],[4,47],[3,47]]]}", "a ring has 4 positions at least")]
    [InlineData("{\"type\":\"Polygon\",\"coordinates\":[]}", "a polygon without a ring")]
    [InlineData("{\"type\":\"Polygon\",\"coordinates\":7}", "needs a list of rings")]
    public void What_is_wrong_is_said_in_one_line_with_the_file(string text, string says)
    {
        UserErrorException e = Assert.Throws<UserErrorException>(() => Read(text));
        Assert.StartsWith(_temp["map.geojson"] + ":", e.Message, StringComparison.Ordinal);
        Assert.Contains(says, e.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', e.Message);
    }

    [Fact]
    public void The_feature_that_is_wrong_is_named()
    {
        UserErrorException e = Assert.Throws<UserErrorException>(() =>
            Read(Feature("""{"type":"Polygon","coordinates":[[[3,47]]]}""", """{"name":"Grey Lake"}""")));
        Assert.Contains("feature 1 (Grey Lake): a ring has", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Deep_nesting_huge_files_and_document_types_are_refused()
    {
        string deep = new string('[', 100_000) + new string(']', 100_000);
        Assert.Contains("deeper than 64", Assert.Throws<UserErrorException>(() => Read(deep)).Message, StringComparison.Ordinal);
        string nested = string.Concat(Enumerable.Repeat("""{"type":"GeometryCollection","geometries":[""", 10))
            + string.Concat(Enumerable.Repeat("]}", 10));
        Assert.Contains("nested deeper", Assert.Throws<UserErrorException>(() => Read(nested)).Message, StringComparison.Ordinal);
        using (FileStream huge = File.Create(_temp["huge.geojson"])) huge.SetLength(OverlayFiles.MaxBytes + 1);
        Assert.Contains("too large", Assert.Throws<UserErrorException>(() => OverlayFiles.Read([_temp["huge.geojson"]])).Message,
            StringComparison.Ordinal);
        StringBuilder many = new("""{"type":"LineString","coordinates":[[3,47]""");
        for (int i = 0; i < OverlayFiles.MaxPositions; i++) many.Append(",[3,47]");
        Assert.Contains("more than 300000 positions",
            Assert.Throws<UserErrorException>(() => Read(many.Append("]}").ToString())).Message, StringComparison.Ordinal);
        Assert.Contains("not GPX", Assert.Throws<UserErrorException>(() => Read(
            """<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "c">]><gpx version="1.1" creator="x"/>""", "map.gpx")).Message,
            StringComparison.Ordinal);
        Assert.Throws<UserErrorException>(() => OverlayFiles.Read([_temp["absent.geojson"]]));
    }

    [Fact]
    public void Control_characters_in_names_do_not_get_through()
    {
        Core.Plan.Overlays map = Read(Feature($$"""{"type":"Polygon","coordinates":[{{Square}}]}""",
            """{"name":"Grey\u001b[2J\nLake","kind":"\u0007water"}"""));
        Assert.Equal("Grey [2J Lake", map.KeepOuts[0].Name);
        Assert.Equal("water", map.KeepOuts[0].Kind);
    }

    [Fact]
    public void The_flight_folder_keeps_the_maps_and_its_replay_gives_the_same_alarms_to_the_byte()
    {
        string alarms = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../../../../recordings/alarms"));
        foreach (string ending in (string[])["toml", "plan.toml", "geojson"])
            File.Copy(Path.Combine(alarms, $"keep-out.{ending}"), _temp[$"keep-out.{ending}"]);
        SimulationWriter.Write(ScenarioFile.Read(_temp["keep-out.toml"]), _temp["simulated"]);
        Replay(_temp["simulated/flight.nmea"], _temp["keep-out.plan.toml"], _temp["first"]);
        File.Delete(_temp["keep-out.geojson"]);
        Assert.Contains("keep_out = [\"keep-out-1.geojson\"]", File.ReadAllText(_temp["first/plan.toml"]), StringComparison.Ordinal);
        Replay(_temp["first/received.nmea"], _temp["first/plan.toml"], _temp["second"]);
        Assert.Contains("Grey Lake (water)", File.ReadAllText(_temp["second/alarms.csv"]), StringComparison.Ordinal);
        Assert.Equal(File.ReadAllBytes(_temp["first/alarms.csv"]), File.ReadAllBytes(_temp["second/alarms.csv"]));
    }

    [Fact]
    public void A_list_over_several_lines_or_in_an_inline_table_is_kept_too()
    {
        File.WriteAllText(_temp["a].geojson"], Feature($$"""{"type":"Polygon","coordinates":[{{Square}}]}"""));
        foreach (string text in (string[])["[landing]\nkeep_out = [ # maps\n  \"a].geojson\",\n]\nground_m = 100 # kept\n",
            "landing = { keep_out = [\"a].geojson\"], ground_m = 100 } # kept\n"])
        {
            File.WriteAllText(_temp["plan.toml"], text);
            FlightPlan plan = PlanReader.Read(_temp["plan.toml"]);
            string kept = Encoding.UTF8.GetString(KeptPlanText.Of(text, plan, []));
            Assert.Contains("keep_out = [\"keep-out-1.geojson\"]", kept, StringComparison.Ordinal);
            Assert.Contains("ground_m = 100", kept, StringComparison.Ordinal);
            Assert.Contains("# kept", kept, StringComparison.Ordinal);
        }
    }

    private static void Replay(string recording, string planFile, string folder)
    {
        FlightPlan plan = PlanReader.Read(planFile);
        FlightFolder flight = FlightFolder.Open(folder, FolderUse.Replay);
        flight.KeepPlan(planFile, plan);
        using ReplaySession replay = new(RecordingReader.Open(recording), plan, flight, null, TimeProvider.System);
        replay.Run(TestContext.Current.CancellationToken);
    }
}
