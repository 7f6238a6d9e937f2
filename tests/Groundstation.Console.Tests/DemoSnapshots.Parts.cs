using System.Collections.Immutable;
using Groundstation.Core.Air;
using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;

namespace Groundstation.Console.Tests;

/// <content>What they are made of.</content>
internal static partial class DemoSnapshots
{
    private static Fix Fix(Waypoint at, int index) => new()
    {
        Source = Radio1,
        Heard = at.Utc,
        Utc = at.Utc,
        DateFrom = DateOrigin.Receiver,
        Position = at.Position,
        Height = at.Height,
        Quality = FixQuality.Autonomous,
        SatellitesUsed = 9,
        Hdop = 0.9,
        SpeedMps = Wind(at.Height.Metres).SpeedMps,
        CourseDeg = (Wind(at.Height.Metres).FromDeg + 180 + index % 3) % 360,
    };

    private static ReceiverHealth Health(SourceId source, Instant heard, double rate, double bad) => new()
    {
        Source = source,
        SentencesPerSecond = rate * 5,
        FixesPerSecond = rate,
        RejectedShare = bad,
        Accepted = 12_345,
        Rejected = [new(RejectReason.Checksum, 31), new(RejectReason.Truncated, 4)],
        SatellitesUsed = 9,
        InView = [.. Enumerable.Range(1, 11).Select(i => new SatelliteInView((short)(i * 3), (short)(i * 7),
            (short)(i * 30),
            i == 11 ? null : (short)(50 - i * 3)))],
        LastByte = heard,
        LastBelieved = heard,
        Believed = 6000,
        Refused = 60,
    };

    private static AlarmState Alarm(string id, Severity severity, AlarmPhase phase, string cause, string consequence,
        string next, int order) => new(id, severity, phase, cause, consequence, next, Start.PlusSeconds(3000), order,
            null);

    private static WindVector Wind(double h) => WindVector.FromDirection(265 + h / 1000, 4
        + 24 * Math.Exp(-Math.Pow((h - 11_000) / 5000, 2)));

    private static WindLayer Layer(int i, double t)
    {
        double bottom = i * 500;
        bool measured = bottom < 400 + 5 * t;
        return new WindLayer(new HeightMsl(bottom), new HeightMsl(bottom + 500), Wind(bottom + 250), measured ? 0.6 : 4,
            measured ? Start.PlusSeconds(Math.Min(t, bottom / 5)) : null, measured ? WindBasis.Ascent
                : WindBasis.Neighbours);
    }

    private static ImmutableArray<Waypoint> Fly()
    {
        List<Waypoint> way = [];
        double h = 400, north = 0, east = 0;
        for (int t = 0; h > 400 || t == 0; t += 10)
        {
            way.Add(new Waypoint(Start.PlusSeconds(t), new GeoPoint(Site.LatitudeDeg + north / 111_200,
                Site.LongitudeDeg + east / 73_700), new HeightMsl(h)));
            WindVector wind = Wind(h);
            (east, north) = (east + wind.EastMps * 10, north + wind.NorthMps * 10);
            h = t < 6000 ? h + 29_600 / 600.0 : Math.Max(400, h - 50 * Math.Exp(h / 14_600));
        }

        return [.. way];
    }
}
