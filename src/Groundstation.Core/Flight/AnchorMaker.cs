using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>Joins believed fixes to <see cref="Anchor"/>s. Holds one running mean, whatever the fix rate.</summary>
public sealed class AnchorMaker
{
    /// <summary>Shortest span of an anchor, s: about one period of swing on 10 m of line (2π√(l/g) = 6 s).</summary>
    private const double SpanS = 5;

    private Fix? _first;
    private double _seconds, _lat, _lon, _height, _hdop;
    private int _count;

    /// <summary>Takes a fix; gives an anchor when one is complete.</summary>
    public Anchor? Take(Fix fix)
    {
        if (fix.Position is not { } place || fix.Height is not { } height) return null;
        Anchor? done = null;
        if (_first is { } first && fix.Utc.SecondsSince(first.Utc) is < 0 or >= SpanS) done = Flush();
        if (_first is null)
        {
            _first = fix;
            (_seconds, _lat, _lon, _height, _hdop, _count) = (0, 0, 0, 0, 0, 0);
        }
        GeoPoint origin = _first.Position!.Value;
        _count++;
        _seconds += fix.Utc.SecondsSince(_first.Utc);
        _lat += place.LatitudeDeg - origin.LatitudeDeg;
        // Difference of longitudes the short way round: a mean across the antimeridian must stay beside it.
        _lon += Math.IEEERemainder(place.LongitudeDeg - origin.LongitudeDeg, 360);
        _height += height.Metres;
        _hdop = Math.Max(_hdop, fix.Hdop ?? 1);
        return done;
    }

    /// <summary>Ends the running anchor now, as when the phase changes.</summary>
    public Anchor? Flush()
    {
        if (_first is not { } first) return null;
        GeoPoint origin = first.Position!.Value;
        Instant utc = first.Utc.PlusSeconds(_seconds / _count);
        var mean = new GeoPoint(origin.LatitudeDeg + _lat / _count,
            Math.IEEERemainder(origin.LongitudeDeg + _lon / _count, 360));
        _first = null;
        return new Anchor(utc, mean, _height / _count, _count, _hdop);
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal AnchorMaker Copy() => (AnchorMaker)MemberwiseClone();
}
