using System.Globalization;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Earth;

/// <summary>The Earth's magnetic field at a place, in the frame north, east, down.</summary>
/// <param name="NorthNt">Component to true north, nT.</param>
/// <param name="EastNt">Component to the east, nT.</param>
/// <param name="DownNt">Component downwards, nT.</param>
public readonly record struct MagneticField(double NorthNt, double EastNt, double DownNt)
{
    /// <summary>Horizontal intensity, nT.</summary>
    public double HorizontalNt => Math.Sqrt(NorthNt * NorthNt + EastNt * EastNt);

    /// <summary>Total intensity, nT.</summary>
    public double TotalNt => Math.Sqrt(NorthNt * NorthNt + EastNt * EastNt + DownNt * DownNt);

    /// <summary>Declination, degrees, east positive: true bearing = magnetic bearing + declination.</summary>
    public double DeclinationDeg => Math.Atan2(EastNt, NorthNt) * 180 / Math.PI;

    /// <summary>Inclination, degrees, down positive.</summary>
    public double InclinationDeg => Math.Atan2(DownNt, HorizontalNt) * 180 / Math.PI;
}

/// <summary>
/// The World Magnetic Model 2025, valid for 2025.0 ≤ year ≤ 2030.0: spherical harmonics of degree 12 as the technical
/// report of NOAA/NCEI and BGS gives them. <c>wmm2025.md</c> beside this file tells where the coefficients come from.
/// The model leaves out what rocks and the ionosphere add: usually below half a degree of declination, more near iron
/// and close to the magnetic poles.
/// </summary>
public static class MagneticModel
{
    /// <summary>First year for which the model is given.</summary>
    public const double FirstYear = 2025;

    /// <summary>Year in which it runs out.</summary>
    public const double LastYear = 2030;

    private const int Degree = 12;
    private const double ReferenceRadiusM = 6_371_200;

    private static readonly Lazy<Term[]> Terms = new(Load);

    /// <summary>The field; null outside the model's years.</summary>
    /// <param name="at">The place.</param>
    /// <param name="height">Height above the ellipsoid, −1 to 850 km; a few hundred metres do not matter.</param>
    /// <param name="year">Decimal year.</param>
    public static MagneticField? Field(GeoPoint at, HeightEllipsoid height, double year)
    {
        if (year is not (>= FirstYear and <= LastYear)) return null;
        (double sinLat, double cosLat) = Angles.SinCosDeg(at.LatitudeDeg);
        double curve = Ellipsoid.Wgs84.PrimeVerticalRadius(at.LatitudeDeg);
        double p = (curve + height.Metres) * cosLat;
        double z = (curve * (1 - Ellipsoid.Wgs84.EccentricitySquared) + height.Metres) * sinLat;
        double r = Math.Sqrt(p * p + z * z);
        // At the very pole east has no meaning: a hair beside it, the limit along the meridian.
        (double cos, double sin) = (z / r, Math.Max(p / r, 1e-10));
        (double north, double east, double down) = Harmonics(cos, sin, r, at.LongitudeDeg, year - FirstYear);
        // From the geocentric frame into that of the ellipsoid.
        (double sinTilt, double cosTilt) = (cos * cosLat - sin * sinLat, sin * cosLat + cos * sinLat);
        return new(north * cosTilt - down * sinTilt, east, north * sinTilt + down * cosTilt);
    }

    /// <summary>Declination at the ground, degrees, east positive; null outside the model's years.</summary>
    public static double? DeclinationDeg(GeoPoint at, Instant utc) => Field(at, default, Year(utc))?.DeclinationDeg;

    /// <summary>A moment as decimal year.</summary>
    public static double Year(Instant utc)
    {
        DateTime t = utc.ToDateTime();
        DateTime first = new(t.Year, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        return t.Year + (t - first).TotalDays / (DateTime.IsLeapYear(t.Year) ? 366 : 365);
    }

    private static (double North, double East, double Down) Harmonics(double cos, double sin, double r, double lonDeg,
        double years)
    {
        // Schmidt semi-normalised Legendre functions of the colatitude and their slopes, by their recursion.
        Span<double> values = stackalloc double[(Degree + 1) * (Degree + 1)];
        Span<double> slopes = stackalloc double[(Degree + 1) * (Degree + 1)];
        values[0] = 1;
        (double north, double east, double down) = (0, 0, 0);
        double ratio = ReferenceRadiusM / r, power = ratio * ratio;
        int term = 0;
        for (int n = 1; n <= Degree; n++)
        {
            power *= ratio;
            for (int m = 0; m <= n; m++)
            {
                Legendre(values, slopes, n, m, cos, sin);
                Term t = Terms.Value[term++];
                (double s, double c) = Angles.SinCosDeg(m * lonDeg);
                (double g, double h) = (t.G + years * t.GPerYear, t.H + years * t.HPerYear);
                double along = g * c + h * s, at = values[Index(n, m)];
                north += power * along * slopes[Index(n, m)];
                east += power * m * (g * s - h * c) * at / sin;
                down -= power * (n + 1) * along * at;
            }
        }
        return (north, east, down);
    }

    private static void Legendre(Span<double> values, Span<double> slopes, int n, int m, double cos, double sin)
    {
        int here = Index(n, m);
        if (n == m)
        {
            double factor = n == 1 ? 1 : Math.Sqrt((2 * n - 1) / (2.0 * n));
            int before = Index(n - 1, m - 1);
            values[here] = factor * sin * values[before];
            slopes[here] = factor * (sin * slopes[before] + cos * values[before]);
            return;
        }
        double norm = Math.Sqrt(n * n - m * m), back = n - 2 >= m ? Math.Sqrt((n - 1) * (n - 1) - m * m) : 0;
        (int last, int lastButOne) = (Index(n - 1, m), n - 2 >= m ? Index(n - 2, m) : 0);
        values[here] = ((2 * n - 1) * cos * values[last] - back * values[lastButOne]) / norm;
        slopes[here] = ((2 * n - 1) * (cos * slopes[last] - sin * values[last]) - back * slopes[lastButOne]) / norm;
    }

    private static int Index(int n, int m) => n * (Degree + 1) + m;

    /// <summary>Lines of degree, order, g, h and their change a year, in the order of degree and order.</summary>
    private static Term[] Load()
    {
        using Stream file = typeof(MagneticModel).Assembly.GetManifestResourceStream("wmm2025.cof")
            ?? throw new InvalidOperationException("The magnetic model is missing from the program: build it again.");
        using StreamReader lines = new(file);
        lines.ReadLine();
        Term[] terms = new Term[Degree * (Degree + 3) / 2];
        for (int i = 0; i < terms.Length; i++)
        {
            string[] cells = lines.ReadLine()!.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            terms[i] = new(Number(cells[2]), Number(cells[3]), Number(cells[4]), Number(cells[5]));
        }
        return terms;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>Gauss coefficients of one degree and order, nT, and their change, nT a year.</summary>
    private readonly record struct Term(double G, double H, double GPerYear, double HPerYear);
}
