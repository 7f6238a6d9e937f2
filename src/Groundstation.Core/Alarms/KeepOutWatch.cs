using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;

namespace Groundstation.Core.Alarms;

/// <summary>How likely the payload comes down in an area.</summary>
/// <param name="Area">The area.</param>
/// <param name="Share">Share of the landing estimate's places that lie inside, above 0, at most 1.</param>
public readonly record struct KeepOutShare(KeepOut Area, double Share);

/// <summary>Counts the landing estimate's places inside each keep-out; counts anew only when the places have changed.</summary>
/// <param name="overlays">The areas.</param>
public sealed class KeepOutWatch(Overlays overlays)
{
    private ImmutableArray<GeoPoint> _counted;
    private ImmutableArray<KeepOutShare> _shares = [];

    /// <summary>The areas that are met, the likeliest first.</summary>
    /// <param name="landing">The newest estimate; null: none yet.</param>
    public ImmutableArray<KeepOutShare> Of(LandingEstimate? landing)
    {
        if (overlays.KeepOuts.IsEmpty || landing is null) return [];
        // On the ground there is one place, and it is known.
        ImmutableArray<GeoPoint> places = landing.Cloud.IsEmpty ? [landing.Position] : landing.Cloud;
        if (!_counted.IsDefault && places.AsSpan().SequenceEqual(_counted.AsSpan())) return _shares;
        _counted = places;
        double south = places.Min(p => p.LatitudeDeg), north = places.Max(p => p.LatitudeDeg);
        var shares = ImmutableArray.CreateBuilder<KeepOutShare>();
        foreach (KeepOut area in overlays.KeepOuts)
        {
            AreaPart[] near = [.. area.Parts.Where(p => p.Outer.SouthDeg <= north && p.Outer.NorthDeg >= south)
                .Select(p => p.Between(south, north))];
            if (near.Length == 0) continue;
            int inside = places.Count(place => near.Any(part => part.Contains(place)));
            if (inside > 0) shares.Add(new(area, (double)inside / places.Length));
        }
        return _shares = [.. shares.OrderByDescending(s => s.Share)];
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    internal KeepOutWatch Copy() => (KeepOutWatch)MemberwiseClone();
}
