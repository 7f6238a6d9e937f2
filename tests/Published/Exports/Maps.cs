using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;
using Groundstation.Io.Exports;

namespace Groundstation.Published.Exports;

/// <summary>Maps that try a writer: an ordinary one, hostile texts, the antimeridian, a pole, nothing at all.</summary>
internal static class Maps
{
    public static readonly ImmutableArray<string> Names = ["plain", "hostile", "antimeridian", "pole", "tiny", "empty"];

    public static MapData Of(string name) => name switch
    {
        "plain" => Around(new GeoPoint(47.1, 2.5), "flight", "A flight."),
        "hostile" => Around(new GeoPoint(47.1, 2.5), "<b>&\"'\u0000\u001b[31m\ud800 \U0001F388]]>", "<!-- -->\uffff"),
        "antimeridian" => Around(new GeoPoint(-17, 179.999), "Fiji side", ""),
        "pole" => Around(new GeoPoint(89.99, 10), "north", ""),
        "tiny" => Around(new GeoPoint(0.00000012, -0.00000012), "zeros", ""),
        _ => new MapData("nothing", ""),
    };

    private static MapData Around(GeoPoint centre, string name, string description)
    {
        Instant start = Instant.FromUnixMilliseconds(1_782_000_000_250);
        ImmutableArray<MapPoint> line = [.. Enumerable.Range(0, 20).Select(i => new MapPoint(
            Geodesic.Direct(centre, 80, i * 500), new HeightMsl(-5 + 1000.26 * i), start.PlusSeconds(i)))];
        ImmutableArray<MapAttribute> told =
            [MapAttribute.Of("burst_m", -0.04, 1), MapAttribute.Of("note", name), MapAttribute.Of("utc", start)];
        return new MapData(name, description)
        {
            Tracks =
            [
                new MapTrack(name, MapRole.Flown, [line[..12], line[12..13], line[13..]]) { Attributes = told },
                new MapTrack("without heights", MapRole.Planned, [[.. line.Select(p => new MapPoint(p.Position))]]),
            ],
            Places =
            [
                new MapPlace(name, MapRole.Flown, line[3]) { Attributes = told },
                new MapPlace("landing", MapRole.Estimated, new MapPoint(centre)),
            ],
            Areas =
            [
                new MapArea(name, MapRole.Estimated, AreaRing.Of(centre, new SearchArea(4000, 1500, 70)))
                {
                    From = start, Until = start.PlusSeconds(60), Attributes = told,
                },
                new MapArea("always", MapRole.Planned, AreaRing.Of(centre, new SearchArea(900, 900, 0))),
            ],
        };
    }
}
