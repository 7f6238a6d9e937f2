using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// Sorts XDR measurements by type, unit and name into the payload's pressure, temperatures, battery and humidity.
/// A name that says what it is wins over one that does not; among names that say nothing the first heard keeps the
/// place. So of two nameless temperatures the first in the sentence is outside and the second inside.
/// </summary>
internal sealed class TelemetryKeeper
{
    private Slot _pressure;
    private Slot _outside;
    private Slot _inside;
    private Slot _battery;
    private Slot _humidity;

    /// <summary>What is known so far.</summary>
    public Telemetry Now { get; private set; } = Telemetry.None;

    /// <summary>Takes one measurement.</summary>
    public void Take(Instant heard, in XdrMeasurement m)
    {
        if (m.Value is not { } value)
            return;
        switch (m.Type)
        {
            case 'P' when Pascal(value, m.Unit) is { } pa:
                bool baro = Names(m.Name, "BARO", "AIR", "ATM", "QFE");
                if (!Names(m.Name, "TANK", "DIFF", "DYN") && _pressure.Claims(m, baro))
                    Now = Now with { PressurePa = pa, PressureHeard = heard, Heard = heard };
                break;
            case 'C' when m.Unit is 'C' or '\0' && value is > -120 and < 150:
                Temperature(heard, m, value);
                break;
            case 'U' when m.Unit is 'V' or '\0' && value is >= 0 and < 100:
                if (!Names(m.Name, "SOLAR", "SUN") && _battery.Claims(m, Names(m.Name, "BAT", "VIN", "SUPPLY", "VCC")))
                    Now = Now with { BatteryV = value, Heard = heard };
                break;
            case 'H' when value is >= 0 and <= 110:
                if (_humidity.Claims(m, Names(m.Name, "OUT", "AIR", "HUM", "RH")))
                    Now = Now with { HumidityPercent = value, Heard = heard };
                break;
        }
    }

    private void Temperature(Instant heard, in XdrMeasurement m, double value)
    {
        bool saysInside = Names(m.Name, "TIN", "INT", "INSIDE", "INDOOR", "BOX", "BAT", "CPU", "CASE", "BOARD")
            || Is(m.Name, "IN");
        bool saysOutside = !saysInside && Names(m.Name, "TEMP", "OUT", "EXT", "AIR", "ENV");
        if (!saysInside && _outside.Claims(m, saysOutside))
            Now = Now with { OutsideC = value, Heard = heard };
        else if (!saysOutside && _inside.Claims(m, saysInside))
            Now = Now with { InsideC = value, Heard = heard };
    }

    // Bar and pascal are the standard's only units of pressure. 1.1 bar is more than the deepest valley has.
    private static double? Pascal(double value, char unit)
    {
        double? pa = unit switch { 'B' => value * 1e5, 'P' => value, _ => null };
        return pa is > 10 and < 120_000 ? pa : null;
    }

    private static bool Names(ReadOnlySpan<byte> name, params ReadOnlySpan<string> parts)
    {
        foreach (string part in parts)
        {
            for (int i = 0; i + part.Length <= name.Length; i++)
            {
                if (Ascii.EqualsIgnoreCase(name.Slice(i, part.Length), part))
                    return true;
            }
        }

        return false;
    }

    private static bool Is(ReadOnlySpan<byte> name, string all) => Ascii.EqualsIgnoreCase(name, all);

    // Which transducer a quantity comes from.
    private struct Slot
    {
        private bool _taken;
        private bool _said;
        private ulong _name;
        private int _index;

        public bool Claims(in XdrMeasurement m, bool says)
        {
            ulong name = Hash(m.Name);
            bool mine = _taken && _said == says && _name == name && (!m.Name.IsEmpty || _index == m.Index);
            if (!mine && _taken && (_said || !says))
                return false;
            (_taken, _said, _name, _index) = (true, says, name, m.Index);
            return true;
        }

        // FNV-1a: names are short, and two of one payload will not collide.
        private static ulong Hash(ReadOnlySpan<byte> name)
        {
            ulong hash = 14695981039346656037;
            foreach (byte b in name)
                hash = (hash ^ b) * 1099511628211;
            return hash;
        }
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public TelemetryKeeper Copy() => (TelemetryKeeper)MemberwiseClone();
}
