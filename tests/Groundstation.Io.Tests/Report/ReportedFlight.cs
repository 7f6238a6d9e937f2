using Groundstation.Core.Earth;
using Groundstation.Io.Report;

namespace Groundstation.Io.Tests.Report;

/// <summary>The bundled clean flight and the silent one, read once for all tests.</summary>
internal static class ReportedFlight
{
    private static readonly Lazy<FlightRecord> _clean = new(() => Read(Bundled.Path("clean"), null));
    private static readonly Lazy<FlightRecord> _silent =
        new(() => Read(Bundled.Path("silent-descent"), new GeoPoint(47.18, 3.52)));

    public static FlightRecord Clean => _clean.Value;

    /// <summary>With a place where it was found.</summary>
    public static FlightRecord Silent => _silent.Value;

    public static FlightRecord Read(string path, GeoPoint? found = null) =>
        FlightReader.Read(path, null, found, _ => { }, default);
}
