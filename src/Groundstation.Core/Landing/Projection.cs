using System.Collections.Immutable;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Landing;

/// <summary>What follows from the newest believed fix alone, whenever it is asked for.</summary>
/// <param name="From">Time of that fix.</param>
/// <param name="Position">Mean of the landing places.</param>
/// <param name="GroundM">Ground there, metres above mean sea level.</param>
/// <param name="Seconds">From the fix to the mean landing.</param>
/// <param name="SigmaS">Its standard deviation.</param>
/// <param name="Half">50 % area.</param>
/// <param name="Most">95 % area.</param>
/// <param name="LastWind">The plain estimate.</param>
/// <param name="Causes">What makes the area, in words.</param>
/// <param name="Path">From the fix to the ground.</param>
/// <param name="TopS">Seconds from the fix to the expected burst; 0 when falling.</param>
/// <param name="Cloud">Some members.</param>
internal sealed record Projection(Instant From, GeoPoint Position, double GroundM, double Seconds, double SigmaS,
    SearchArea Half, SearchArea Most, GeoPoint? LastWind, Saying Causes, ImmutableArray<Waypoint> Path, double TopS,
    ImmutableArray<GeoPoint> Cloud);
