using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Callouts;

/// <summary>
/// Figures of the search sheet, in the plan's units and coordinates; bearings from true and magnetic north.
/// </summary>
internal sealed class SheetFigures(FlightPlan plan, Instant utc)
{
    private readonly bool _customary = plan.Units == DisplayUnits.Customary;

    /// <summary>The plan's coordinates.</summary>
    public CoordinateFormat Format => plan.Callouts.Coordinates;

    /// <summary>Date and time of day.</summary>
    public static string Moment(Instant at) => at.ToDateTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>Time of day.</summary>
    public static string Clock(Instant at) => at.ToDateTime().ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A height above mean sea level; the sum with plus zero is never minus zero.</summary>
    public string Height(double metres) => _customary
        ? Text($"{Math.Round(metres / FootM) + 0.0:F0} ft") : Text($"{Math.Round(metres) + 0.0:F0} m");

    /// <summary>A length of time.</summary>
    public static string Span(double seconds)
    {
        long minutes = (long)Math.Round(Math.Abs(seconds) / 60);
        return minutes < 100 ? Text($"{minutes} min") : Text($"{minutes / 60} h {minutes % 60:00} min");
    }

    /// <summary>A distance.</summary>
    public string Distance(double metres) => _customary
        ? metres < 0.2 * MileM ? Text($"{metres / FootM:F0} ft") : Text($"{metres / MileM:F1} mi")
        : metres < 1000 ? Text($"{metres:F0} m") : Text($"{metres / 1000:F1} km");

    /// <summary>An area's half axes, from its middle.</summary>
    public string Axes(SearchArea area) => $"{Distance(area.MajorM)} by {Distance(area.MinorM)}";

    /// <summary>
    /// A direction at a place from both norths; from true north alone where the magnetic model has run out.
    /// </summary>
    public string Bearing(double trueDeg, GeoPoint at) => MagneticModel.DeclinationDeg(at, utc) is { } east
        ? $"{Digits(trueDeg)}° true, {Digits(trueDeg - east)}° magnetic" : $"{Digits(trueDeg)}° true";

    /// <summary>The way from one place to another.</summary>
    public string Way(GeoPoint from, GeoPoint to)
    {
        GeodesicLine way = Geodesic.Inverse(from, to);
        return $"{Distance(way.DistanceM)}, {Bearing(way.AzimuthDeg, from)}";
    }

    private static string Digits(double deg) => Text($"{(((long)Math.Round(deg) % 360) + 359) % 360 + 1:000}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
