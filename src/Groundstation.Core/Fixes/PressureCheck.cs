using Groundstation.Core.Air;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.Measure;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Holds a fix's altitude against the measured pressure in the 1976 standard atmosphere, with room for real air: its
/// 10 hPa level lies 3 km lower in a polar winter than in summer, and cheap sensors err by 2 hPa. A sensor that stands
/// still while the flight moves (its range ends at 300 or 10 hPa), or that contradicts a consistent track for a minute,
/// loses its say until it agrees again.
/// </summary>
internal sealed class PressureCheck
{
    private const double LowestPa = 1200;
    private const double HighestPa = 110_000;
    private const double FreshS = 10;
    private const double TrustLostS = 60;
    private const int AgreeToRegain = 5;

    private double? _markPa;
    private double _markHeightM;
    private bool _stuck;
    private bool _trusted = true;
    private Instant? _contradictedSince;
    private int _agreed;

    /// <summary>Words on the contradiction, or null when there is none or the sensor has no say.</summary>
    /// <param name="heightM">The fix's height, metres above mean sea level.</param>
    /// <param name="at">Arrival time of the fix.</param>
    /// <param name="telemetry">What was measured.</param>
    /// <param name="rateMps">The flight's vertical rate, m/s, if known.</param>
    /// <param name="otherwiseGood">True when nothing else speaks against the fix.</param>
    public Saying? Check(double heightM, Instant at, Telemetry telemetry, double? rateMps, bool otherwiseGood)
    {
        if (telemetry.PressurePa is not { } pa || telemetry.PressureHeard is not { } heard
            || at.SecondsSince(heard) > FreshS || pa < LowestPa || pa > HighestPa)
            return null;
        if (otherwiseGood)
            WatchForStandstill(pa, heightM);
        double byPressure = HeightOf(pa);
        double perPa = (HeightOf(pa - 1) - HeightOf(pa + 1)) / 2;
        double tolerance = 500 + 0.05 * Math.Max(0, heightM) + 200 * perPa
            + Math.Abs(rateMps ?? 0) * Math.Max(0, at.SecondsSince(heard));
        double off = heightM - byPressure;
        bool agrees = Math.Abs(off) <= tolerance;
        if (otherwiseGood)
            KeepTrust(agrees, at);
        if (agrees || _stuck || !_trusted)
            return null;
        return $"altitude {HeightAloft(off).Signed} from the {HeightAloft(byPressure)} that "
            + $"{AirPressure(pa)} says, tolerance {HeightAloft(tolerance)}";
    }

    // A change of 300 m in height has to show as at least a third of it in the pressure.
    private void WatchForStandstill(double pa, double heightM)
    {
        if (_markPa is not { } mark)
        {
            (_markPa, _markHeightM) = (pa, heightM);
            return;
        }

        double moved = heightM - _markHeightM;
        if (Math.Abs(moved) < 300)
            return;
        _stuck = Math.Abs(HeightOf(pa) - HeightOf(mark)) < Math.Abs(moved) / 3;
        (_markPa, _markHeightM) = (pa, heightM);
    }

    private void KeepTrust(bool agrees, Instant at)
    {
        _agreed = agrees ? _agreed + 1 : 0;
        if (agrees)
        {
            _contradictedSince = null;
            _trusted |= _agreed >= AgreeToRegain;
            return;
        }

        _contradictedSince ??= at;
        if (at.SecondsSince(_contradictedSince.Value) >= TrustLostS)
            _trusted = false;
    }

    private static double HeightOf(double pa) => StandardAtmosphere.HeightFromPressure(pa);

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public PressureCheck Copy() => (PressureCheck)MemberwiseClone();
}
