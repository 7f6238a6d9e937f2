using System.Collections.Immutable;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Satellites in view, from GSV. Part numbers are not relied on: receivers spread a group over seconds, start a new
/// signal in the middle of a numbering, or leave parts blank. A satellite stays until it was not named for a while.
/// </summary>
internal sealed class SkyView
{
    // A receiver may send its groups every fifth or tenth second only.
    private const double ForgottenS = 15;
    private const int Room = 256;

    private readonly record struct Seen(int System, int Signal, SatelliteInView Satellite, Instant Heard);

    private Seen[] _seen = new Seen[Room];
    private int _count;

    public void Take(in Sentence sentence, in Gsv message)
    {
        for (int i = 0; i < message.SatelliteCount; i++)
        {
            SatelliteInView satellite = message.Satellites[i];
            var seen = new Seen(GnssSystem.Of(sentence.Address, null, satellite.Id), message.SignalId ?? 0, satellite,
                sentence.Heard);
            _seen[PlaceFor(seen)] = seen;
        }
    }

    /// <summary>One row a satellite with its strongest signal; strongest first, then by system and number.</summary>
    public ImmutableArray<SatelliteInView> At(Instant now)
    {
        var best = new List<Seen>();
        for (int i = 0; i < _count; i++)
        {
            Seen seen = _seen[i];
            if (now.SecondsSince(seen.Heard) > ForgottenS)
                continue;
            int at = best.FindIndex(b => b.System == seen.System && b.Satellite.Id == seen.Satellite.Id);
            if (at < 0)
                best.Add(seen);
            else if ((seen.Satellite.SnrDb ?? -1) > (best[at].Satellite.SnrDb ?? -1))
                best[at] = seen;
        }

        // One receiver gives azimuth 0 for all of them: no sky view then, only strengths.
        bool noSky = best.Count > 2 && best.TrueForAll(b => b.Satellite.AzimuthDeg is null or 0);
        return [.. best.OrderByDescending(b => b.Satellite.SnrDb ?? -1).ThenBy(b => b.System)
            .ThenBy(b => b.Satellite.Id)
            .Select(b => noSky ? b.Satellite with { AzimuthDeg = null, ElevationDeg = null } : b.Satellite)];
    }

    // Its own place, else a free one, else that of the satellite not named for longest.
    private int PlaceFor(in Seen seen)
    {
        int oldest = 0;
        for (int i = 0; i < _count; i++)
        {
            if (_seen[i].System == seen.System && _seen[i].Signal == seen.Signal
                && _seen[i].Satellite.Id == seen.Satellite.Id)
                return i;
            if (_seen[i].Heard < _seen[oldest].Heard)
                oldest = i;
        }

        return _count < Room ? _count++ : oldest;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public SkyView Copy()
    {
        var copy = (SkyView)MemberwiseClone();
        copy._seen = [.. _seen];
        return copy;
    }
}
