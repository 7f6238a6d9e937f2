using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Cells;

/// <summary>
/// Figures as text with their units, metric or customary. Takes SI; a missing figure is said to be missing.
/// </summary>
internal readonly record struct Figures(DisplayUnits Units, bool Ascii)
{
    private static readonly NumberFormatInfo Grouped = new() { NumberGroupSeparator = " " };

    private bool Customary => Units == DisplayUnits.Customary;

    /// <summary>The sign for degrees of arc.</summary>
    public string Degree => Ascii ? " deg" : "°";

    /// <summary>Height: whole metres or feet.</summary>
    public string Height(double? metres) => metres is { } m
        ? Customary ? Whole(m / FootM) + " ft" : Whole(m) + " m" : "none";

    /// <summary>Height on an axis: whole kilometres or thousands of feet.</summary>
    public string AxisHeight(double metres, int decimals = 0)
    {
        double value = Customary ? metres / FootM / 1000 : metres / 1000;
        // Four figures at most: columns are made for them.
        return Number(value, value >= 99.95 ? 0 : decimals) + (Customary ? " kft" : " km");
    }

    /// <summary>Vertical rate with its sign.</summary>
    public string Climb(double? mps) => mps is { } v
        ? Customary ? Signed(v / FootM * 60, 0) + " ft/min" : Signed(v, 1) + " m/s" : "no rate";

    /// <summary>Horizontal speed.</summary>
    public string Speed(double? mps) => mps is { } v
        ? Customary ? Number(v * 3600 / MileM, 0) + " mph" : Number(v, 1) + " m/s" : "none";

    /// <summary>Horizontal distance, about three figures.</summary>
    public string Distance(double? metres)
    {
        if (metres is not { } m) return "none";
        if (!Customary) return m < 999.5 ? Number(m, 0) + " m" : Number(m / 1000, m < 99_950 ? 1 : 0) + " km";
        double miles = m / MileM;
        return miles < 0.2 ? Whole(m / FootM) + " ft" : Number(miles, miles < 99.95 ? 1 : 0) + " mi";
    }

    /// <summary>Two axes that share a unit: <c>2.1 × 1.2 km</c>.</summary>
    public string Axes(double majorM, double minorM)
    {
        (double unit, string name) = Customary ? (MileM, "mi") : majorM < 1000 ? (1, "m") : (1000, "km");
        int decimals = unit == 1 ? 0 : majorM / unit < 100 ? 1 : 0;
        if (unit > 1 && minorM / unit < 0.95) decimals = 2;
        return $"{Number(majorM / unit, decimals)} × {Number(minorM / unit, decimals)} {name}";
    }

    /// <summary>Area on the ground; below a tenth of a square kilometre or mile in square metres or feet.</summary>
    public string Area(double m2)
    {
        if (m2 < 1e5)
        {
            return Whole(m2 / (Customary ? FootM * FootM : 1))
                + (Customary ? " sq ft" : Ascii ? " sq m" : " m²");
        }

        double unit = Customary ? MileM * MileM : 1e6, value = m2 / unit;
        return Number(value, value < 10 ? 1 : 0) + (Customary ? " sq mi" : Ascii ? " sq km" : " km²");
    }

    /// <summary>Temperature from °C.</summary>
    public string Temperature(double c) =>
        Number(Customary ? c * 9 / 5 + 32 : c, 1) + (Ascii ? " deg " : " °") + (Customary ? 'F' : 'C');

    /// <summary>Pressure of the air.</summary>
    public string AirPressure(double pa) =>
        Customary ? Number(pa / InchOfMercuryPa, 2) + " inHg" : Number(pa / 100, 1) + " hPa";

    /// <summary>Mass: kilograms or pounds.</summary>
    public string Mass(double kg) => Customary ? Number(kg / PoundKg, 2) + " lb" : Number(kg, 2) + " kg";

    /// <summary>Direction, three figures, degrees true.</summary>
    public string Bearing(double deg) =>
        ((int)Math.Round(((deg % 360) + 360) % 360) % 360).ToString("D3", CultureInfo.InvariantCulture) + Degree;

    /// <summary>Direction with the compass point's letters.</summary>
    public string BearingWithPoint(double deg) => $"{Bearing(deg)} {Point(deg)}";

    /// <summary>The way from one place to another: distance and direction at its start.</summary>
    public string Way(GeoPoint from, GeoPoint to) => Way(Geodesic.Inverse(from, to));

    /// <summary>Distance and direction at the start.</summary>
    public string Way(GeodesicLine way) => $"{Distance(way.DistanceM)} at {BearingWithPoint(way.AzimuthDeg)}";

    /// <summary>Letters of the nearest of sixteen compass points.</summary>
    public static string Point(double deg)
    {
        ReadOnlySpan<string> points = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
            "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];
        return points[(int)Math.Round((((deg % 360) + 360) % 360) / 22.5) % 16];
    }

    /// <summary>An arrow that points where <paramref name="deg"/> leads, on a screen whose top is north.</summary>
    public static char Arrow(double deg) =>
        "↑↗→↘↓↙←↖"[(int)Math.Round((((deg % 360) + 360) % 360) / 45) % 8];

    /// <summary>UTC time of day.</summary>
    public static string Clock(Instant at) =>
        at.ToDateTime().ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>UTC date.</summary>
    public static string Date(Instant at) =>
        at.ToDateTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Mission time: since launch, or before it.</summary>
    public static string Mission(double? seconds)
    {
        if (seconds is not { } s) return "before launch";
        TimeSpan span = TimeSpan.FromSeconds(Math.Abs(s));
        return string.Create(CultureInfo.InvariantCulture,
            $"T{(s < 0 ? '-' : '+')}{(int)span.TotalHours:D2}:{span.Minutes:D2}:{span.Seconds:D2}");
    }

    /// <summary>A length of time in two units at most.</summary>
    public static string Span(double seconds)
    {
        long s = (long)Math.Floor(Math.Abs(seconds));
        return s < 60 ? $"{s} s" : s < 3600 ? $"{s / 60} min {s % 60:D2} s" : $"{s / 3600} h {s / 60 % 60:D2} min";
    }

    /// <summary>Coordinates; the form that a map search takes.</summary>
    public static string Place(GeoPoint at) => at.ToString();

    /// <summary>A plain number with fixed decimals.</summary>
    public static string Number(double value, int decimals) =>
        Measure.Figure(value, "F" + decimals.ToString(CultureInfo.InvariantCulture));

    private static string Whole(double value) => (Math.Round(value) + 0.0).ToString("#,0", Grouped);

    private static string Signed(double value, int decimals)
    {
        // Rounded first: a sum with plus zero is never minus zero.
        string text = (Math.Round(value, decimals) + 0.0).ToString(decimals == 0 ? "#,0" : "#,0.0", Grouped);
        return text.StartsWith('-') || text is "0" or "0.0" ? text : "+" + text;
    }
}
