using System.Globalization;
using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Simulation;

/// <summary>
/// Says an epoch in NMEA 0183: GGA, RMC, GSA, GSV, VTG, GLL, ZDA, and XDR for the sensors. Five decimals of a minute
/// (1.9 cm) and one of a metre: coarse enough that platforms whose sine differs in the last bit print the same.
/// </summary>
internal sealed class EpochSentences(Scenario scenario)
{
    private readonly SimulatedReceiver _set = scenario.Receiver;
    private readonly bool _late = scenario.Receiver.Talker != "GP";
    private readonly string _talker = scenario.Receiver.Talker;
    private ReceiverEpoch? _held;
    private ReceiverEpoch? _stalled;
    private double _slowDueS = double.NegativeInfinity;

    /// <summary>Adds the epoch's sealed sentences, without line ends.</summary>
    public void Say(in SimulatedEpoch epoch, List<string> to)
    {
        double t = epoch.Truth.TimeS;
        bool stalls = _set.Stalls.Any(s => t >= s.FromS && t < s.FromS + s.ForS);
        ReceiverEpoch r = stalls ? _stalled ?? epoch.Receiver : epoch.Receiver;
        _stalled = r;
        if (r.HasFix)
            _held = r;
        // What it shows without a fix: nothing, or the last one with the new time.
        ReceiverEpoch? shown = r.HasFix ? r : _set.Beyond == BeyondLimit.Held ? _held : null;
        foreach (string type in _set.Sentences)
            Say(type, r, shown, epoch.InView, to);
        if (epoch.Truth.TimeS >= _slowDueS)
        {
            _slowDueS = epoch.Truth.TimeS + _set.SlowEveryS - 1e-6;
            foreach (string type in _set.SlowSentences)
                Say(type, r, shown, epoch.InView, to);
        }

        if (epoch.Sensors is { } s)
        {
            Add(to, Text($"WIXDR,P,{s.PressurePa / 1e5:F5},B,BARO,C,{s.OutsideC:F1},C,OUT,C,{s.InsideC:F1},C,IN")
                + Text($",U,{s.BatteryV:F2},V,BATT"));
        }
    }

    private void Say(string type, in ReceiverEpoch r, in ReceiverEpoch? shown, IReadOnlyList<SkySatellite> sky,
        List<string> to)
    {
        switch (type)
        {
            case "GGA":
                Add(to, Gga(r, shown));
                break;
            case "RMC":
                Add(to, Rmc(r, shown));
                break;
            case "GSA":
                Add(to, Gsa(r, sky));
                break;
            case "GSV":
                Gsv(sky, to);
                break;
            case "VTG":
                Add(to, Vtg(r, shown));
                break;
            case "GLL":
                Add(to, $"{_talker}GLL,{Place(shown)},{Time(r.Utc)},{(r.HasFix ? 'A' : 'V')},{Mode(r)}");
                break;
            case "ZDA":
                Add(to, Text($"{_talker}ZDA,{Time(r.Utc)},{Date(r):dd,MM,yyyy},00,00"));
                break;
            default:
                throw new ArgumentException($"no sentence type {type}", nameof(type));
        }
    }

    private string Gga(in ReceiverEpoch r, in ReceiverEpoch? shown) => $"{_talker}GGA,{Time(r.Utc)}," + (shown is { } s
        ? Text($"{Place(s)},{(r.HasFix ? 1 : 0)},{(r.HasFix ? s.Satellites : 0):D2},{Dop(r, r.Hdop)},")
            + Text($"{s.Height.Metres:F1},M,{_set.GeoidSeparationM:F1},M,,")
        : ",,,,0,00,99.99,,M,,M,,");

    private string Rmc(in ReceiverEpoch r, in ReceiverEpoch? shown)
    {
        string motion = shown is { } s ? Text($"{Knots(s.Velocity.SpeedMps):F2},{Course(s)}") : ",";
        return Text($"{_talker}RMC,{Time(r.Utc)},{(r.HasFix ? 'A' : 'V')},{Place(shown)},{motion},")
            + Text($"{Date(r):ddMMyy},,,{Mode(r)}{(_late ? ",V" : "")}");
    }

    private DateTime Date(in ReceiverEpoch r) => r.Utc.ToDateTime().AddDays(_set.DateAheadDays);

    private string Vtg(in ReceiverEpoch r, in ReceiverEpoch? shown)
    {
        string motion = shown is { } s
            ? Text($"{Course(s)},T,,M,{Knots(s.Velocity.SpeedMps):F2},N,{s.Velocity.SpeedMps * 3.6:F2},K")
            : ",T,,M,,N,,K";
        return $"{_talker}VTG,{motion},{Mode(r)}";
    }

    private string Gsa(in ReceiverEpoch r, IReadOnlyList<SkySatellite> sky)
    {
        StringBuilder numbers = new();
        int count = 0;
        for (int i = 0; r.HasFix && i < sky.Count && count < 12; i++)
        {
            if (!sky[i].Used)
                continue;
            numbers.Append(CultureInfo.InvariantCulture, $"{sky[i].Number:D2},");
            count++;
        }

        numbers.Append(',', 12 - count);
        double pdop = r.HasFix ? double.Hypot(r.Hdop, r.Vdop) : 99.99;
        return Text($"{_talker}GSA,A,{(r.HasFix ? 3 : 1)},{numbers}{Dop(r, pdop)},{Dop(r, r.Hdop)},")
            + Dop(r, r.Vdop) + (_late ? ",1" : "");
    }

    private void Gsv(IReadOnlyList<SkySatellite> sky, List<string> to)
    {
        int parts = Math.Max(1, (sky.Count + 3) / 4);
        for (int part = 0; part < parts; part++)
        {
            StringBuilder text = new();
            text.Append(CultureInfo.InvariantCulture, $"GPGSV,{parts},{part + 1},{sky.Count:D2}");
            for (int i = 4 * part; i < sky.Count && i < 4 * part + 4; i++)
            {
                SkySatellite s = sky[i];
                text.Append(CultureInfo.InvariantCulture,
                    $",{s.Number:D2},{s.ElevationDeg:00},{(int)s.AzimuthDeg:D3},{Math.Clamp(s.SnrDb, 0, 99):00}");
            }

            to.Add(SentenceWriter.Seal(text.Append(_late ? ",1" : "").ToString()));
        }
    }

    private static void Add(List<string> to, string body) => to.Add(SentenceWriter.Seal(body));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static char Mode(in ReceiverEpoch r) => r.HasFix ? 'A' : 'N';

    private static string Dop(in ReceiverEpoch r, double value) =>
        (r.HasFix ? Math.Min(value, 99.99) : 99.99).ToString("F2", CultureInfo.InvariantCulture);

    private static double Knots(double mps) => mps * 3600 / 1852;

    // A course means nothing while it stands; receivers leave it empty then.
    private static string Course(in ReceiverEpoch s) => s.Velocity.SpeedMps < 0.3
        ? ""
        : Wrap(s.Velocity.FromDeg + 180).ToString("F1", CultureInfo.InvariantCulture);

    private static double Wrap(double deg) => Math.Round(deg % 360, 1) % 360;

    private static string Time(Instant utc) =>
        utc.ToDateTime().ToString("HHmmss.ff", CultureInfo.InvariantCulture);

    private static string Place(in ReceiverEpoch? shown) => shown is { } s
        ? $"{Angle(s.Position.LatitudeDeg, 2)},{(s.Position.LatitudeDeg < 0 ? 'S' : 'N')},"
            + $"{Angle(s.Position.LongitudeDeg, 3)},{(s.Position.LongitudeDeg < 0 ? 'W' : 'E')}"
        : ",,,";

    // In whole hundred-thousandths of a minute, so that 59.999999 minutes never print as 60.
    private static string Angle(double deg, int digits)
    {
        long units = (long)Math.Round(Math.Abs(deg) * 60 * 1e5);
        (long whole, long rest) = Math.DivRem(units, 60 * 100_000);
        return string.Create(CultureInfo.InvariantCulture,
            $"{whole.ToString("D" + digits, CultureInfo.InvariantCulture)}{rest / 100_000:D2}.{rest % 100_000:D5}");
    }
}
