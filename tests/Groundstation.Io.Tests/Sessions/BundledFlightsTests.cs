using System.Globalization;
using Groundstation.Core.Callouts;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>The bundled flights from recording to landing estimate, held against where the payload truly was.</summary>
public sealed class BundledFlightsTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void Heard_to_the_ground_it_is_landed_where_it_lies()
    {
        LandingEstimate last = Replay("clean");
        Assert.Equal(LandingMethod.Landed, last.Method);
        Assert.InRange(Geodesic.DistanceM(last.Position, Truth("clean")), 0, 10);
        string[] raised = [.. File.ReadAllLines(_temp["clean/alarms.csv"]).Where(l => l.Contains(",raised,",
            StringComparison.Ordinal)).Select(l => l.Split(',')[1])];
        Assert.Equal(["launch", "burst", "approach", "landed"], raised);
    }

    [Fact]
    public void Silent_since_nine_kilometres_it_lies_within_the_area_and_nearer_than_the_last_wind_says()
    {
        LandingEstimate last = Replay("silent-descent");
        Assert.Equal(LandingMethod.Silent, last.Method);
        GeoPoint truth = Truth("silent-descent");
        Assert.True(Within(last.Area95, last.Position, truth));
        Assert.True(Geodesic.DistanceM(last.Position, truth) < Geodesic.DistanceM(last.LastWind!.Value, truth));
    }

    [Fact]
    public void Above_its_receivers_limit_the_station_says_so_and_when_and_where_the_fix_comes_back()
    {
        LandingEstimate last = Replay("altitude-limit");
        Assert.True(Within(last.Area95, last.Position, Truth("altitude-limit")));
        string raised = File.ReadAllLines(_temp["altitude-limit/alarms.csv"])
            .Single(line => line.Contains(",altitude-limit,", StringComparison.Ordinal)
                && line.Contains(",raised,", StringComparison.Ordinal));
        Assert.Contains("altitude limit of 18.0 km; sentences keep coming; back about 10:1", raised, StringComparison.Ordinal);
        // Heard again at 10:15:13.
        Assert.Matches("back about 10:1[2-9] UTC near 47\\.\\d+N 3\\.\\d+E", raised);
    }

    private LandingEstimate Replay(string flight)
    {
        using ReplaySession replay = new(RecordingReader.Open(Bundled.Path(flight, "flight.nmea")),
            PlanReader.Read(Bundled.Path(flight, "plan.toml")), FlightFolder.Open(_temp[flight], FolderUse.Replay), null,
            TimeProvider.System);
        replay.Run(TestContext.Current.CancellationToken);
        // Read aloud at two and a half words a second, each takes 20 seconds at most.
        Assert.All(replay.Outcome().Last.Callouts, c => Assert.InRange(CalloutText.Words(c.Spoken), 20, 50));
        return replay.Outcome().Last.Landing!;
    }

    private static bool Within(SearchArea area, GeoPoint centre, GeoPoint place)
    {
        GeodesicLine way = Geodesic.Inverse(centre, place);
        (double sin, double cos) = Math.SinCos((way.AzimuthDeg - area.AzimuthDeg) * Math.PI / 180);
        double along = way.DistanceM * cos / area.MajorM, across = way.DistanceM * sin / area.MinorM;
        return along * along + across * across <= 1;
    }

    private static GeoPoint Truth(string flight)
    {
        string[] last = File.ReadLines(Bundled.Path(flight, "truth.csv")).Last(line => line.Length > 0).Split(',');
        return new(double.Parse(last[2], CultureInfo.InvariantCulture), double.Parse(last[3], CultureInfo.InvariantCulture));
    }
}
