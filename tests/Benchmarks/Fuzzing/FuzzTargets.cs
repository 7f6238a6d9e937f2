using System.Text;
using Groundstation.Core.Earth;
using Groundstation.Core.Plan;
using Groundstation.Io.Inspection;
using Groundstation.Io.Overlays;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Scenarios;
using Groundstation.Io.Sessions;
using Groundstation.Io.Terrain;
using Groundstation.Io.Winds;

namespace Groundstation.Benchmarks.Fuzzing;

/// <summary>A reader of what comes from outside, with good input to spoil.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Good">Good files.</param>
/// <param name="Most">Most bytes taken of one.</param>
/// <param name="Read">Reads a spoilt one, given its bytes and a folder to put it in.</param>
internal sealed record FuzzTarget(string Name, byte[][] Good, int Most, Action<byte[], string> Read);

/// <summary>Every reader. One that is added to the program gets its line here.</summary>
internal static class FuzzTargets
{
    public static IReadOnlyList<FuzzTarget> All()
    {
        string recordings = Path.Combine(Machine.Root(), "recordings");
        byte[][] flights = [.. Directory.GetFiles(recordings, "*.nmea", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal).Select(File.ReadAllBytes)];
        byte[][] plans = [Encoding.UTF8.GetBytes(ExamplePlan.Text), .. Files(recordings, "plan.toml")];
        byte[][] scenarios = [Encoding.UTF8.GetBytes(ExampleScenario.Text), .. Files(recordings, "scenario.toml")];
        byte[][] winds = [.. Directory.GetFiles(Path.Combine(Machine.Root(), "tests", "Published", "data"),
            "sounding_igra*.csv").Order(StringComparer.Ordinal).Select(File.ReadAllBytes),
            Encoding.ASCII.GetBytes(Bulletin), Encoding.ASCII.GetBytes(Ascent)];
        byte[][] own = [OwnRecording(flights[0])];
        return
        [
            new("decoder and station", [.. Machine.ReceiverLogs(), .. flights], 20_000, Replay),
            new("recording", own, 20_000, Replay),
            new("inspection", [.. Machine.ReceiverLogs(), .. own], 20_000, (bytes, folder) =>
                RecordingInspection.Run(Put(folder, "in.nmea", bytes), bytes.Length % 2 == 0, TextWriter.Null)),
            new("plan", plans, 100_000, (bytes, folder) => PlanReader.Read(Put(folder, "plan.toml", bytes))),
            new("scenario", scenarios, 100_000, (bytes, folder) =>
                ScenarioFile.Read(Put(folder, "scenario.toml", bytes))),
            new("winds", winds, 100_000, (bytes, folder) => WindFiles.Read(Put(folder, "winds.txt", bytes))),
            new("map, GeoJSON", [.. Directory.GetFiles(recordings, "*.geojson", SearchOption.AllDirectories)
                .Order(StringComparer.Ordinal).Select(File.ReadAllBytes)], 100_000,
                (bytes, folder) => OverlayFiles.Read([Put(folder, "map.geojson", bytes)])),
            new("map, GPX", [Encoding.UTF8.GetBytes(Gpx)], 100_000,
                (bytes, folder) => OverlayFiles.Read([Put(folder, "map.gpx", bytes)])),
            new("terrain", [new byte[HgtTiles]], HgtTiles, Terrain),
        ];
    }

    private const string Bulletin = """
        FD1US1
        DATA BASED ON 180000Z
        VALID 180600Z   FOR USE 0500-0900Z. TEMPS NEG ABV 24000

        FT  3000    6000    9000   12000   18000   24000  30000  34000  39000
        AAA      9900+02 3219+02 3122+00 2930-12 2837-25 286839 279847 770455
        """;

    // The first part of the ascent in tests/Published/Winds.
    private const string Ascent = """
        TTAA 73121 83779 99938 21224 01008 00163 ///// ///// 92843 20019 07506 85570 18650 36008 70207 08030 34004
        50591 06563 29503 40761 18364 30017 30970 33138 28015 25095 43722 28026 20241 55957 29040 15418 68957 28039
        10658 73364 28019 88999 77999 31313 42308 81131=
        """;

    private const string Gpx = """
        <?xml version="1.0"?><gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
        <wpt lat="47.1" lon="3.2"><name>gate</name></wpt>
        <rte><name>road</name><rtept lat="47.1" lon="3.2"/><rtept lat="47.2" lon="3.3"/></rte>
        <trk><name>path</name><trkseg><trkpt lat="47.1" lon="3.2"/><trkpt lat="47.2" lon="3.3"/></trkseg></trk></gpx>
        """;

    // 3″: 1201² samples of two bytes.
    private const int HgtTiles = 2 * 1201 * 1201;

    private static IEnumerable<byte[]> Files(string folder, string name) =>
        Directory.GetFiles(folder, name, SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .Select(File.ReadAllBytes);

    private static void Replay(byte[] bytes, string folder)
    {
        using ReplaySession session = new(RecordingReader.Open(Put(folder, "in.nmea", bytes)), FlightPlan.Default, null,
            null, TimeProvider.System);
        session.Run(CancellationToken.None);
        _ = HeadlessSummary.Text(session.Outcome());
    }

    /// <summary>A tile of any content, often of the wrong size, asked all over and beside it.</summary>
    private static void Terrain(byte[] bytes, string folder)
    {
        string tiles = Directory.CreateDirectory(Path.Combine(folder, "tiles")).FullName;
        Put(tiles, "N47E003.hgt", bytes.Length % 3 == 0 ? bytes : Resized(bytes));
        HgtTerrain terrain = HgtTerrain.Open(tiles);
        for (double lat = 46.99; lat < 48.02; lat += 0.0173)
            for (double lon = 2.99; lon < 4.02; lon += 0.0211)
                if (terrain.HeightAt(new GeoPoint(lat, lon)) is { Metres: < -32768 or > 32767 } far)
                    throw new InvalidDataException($"ground at {far.Metres} m");
    }

    private static byte[] Resized(byte[] bytes)
    {
        Array.Resize(ref bytes, HgtTiles);
        return bytes;
    }

    /// <summary>The station's own kind: a replay of a flight writes one.</summary>
    private static byte[] OwnRecording(byte[] flight)
    {
        string folder = Directory.CreateTempSubdirectory("groundstation-fuzz-").FullName;
        try
        {
            // Twenty minutes of it hold every kind of line.
            string file = Put(folder, "in.nmea", flight[..Math.Min(flight.Length, 400_000)]);
            var own = Io.Folders.FlightFolder.Open(Path.Combine(folder, "f"), Io.Folders.FolderUse.Replay);
            using (ReplaySession session = new(RecordingReader.Open(file), FlightPlan.Default, own, null,
                TimeProvider.System))
            {
                session.Run(CancellationToken.None);
                own.Record(RecordedEvent.Acted(session.Outcome().Last.Utc, new Core.OperatorAct("note", "a, b* \u00e9")));
            }

            return File.ReadAllBytes(Path.Combine(folder, "f", Io.Folders.FlightFolder.RecordingName));
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    private static string Put(string folder, string name, byte[] bytes)
    {
        string path = Path.Combine(folder, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }
}
