namespace Groundstation.Core.Earth;

/// <summary>
/// The series of C. F. F. Karney, "Algorithms for geodesics", J. Geodesy 87 (2013) 43–55, to sixth order in ε and n;
/// the numbers in brackets are that paper's equations. Coefficient arrays are indexed by the multiple of 2σ: [1]…[6].
/// </summary>
internal static class GeodesicSeries
{
    /// <summary>Length of a coefficient array; [0] is unused.</summary>
    public const int Size = 7;

    /// <summary>A₁ (17): scale of the distance integral I₁.</summary>
    public static double A1(double e)
    {
        double e2 = e * e;
        return (1 + e2 * (1 / 4.0 + e2 * (1 / 64.0 + e2 / 256))) / (1 - e);
    }

    /// <summary>C₁ (18): distance as a function of arc length.</summary>
    public static void C1(double e, Span<double> c)
    {
        double e2 = e * e, p = e;
        c[1] = p * (-1 / 2.0 + e2 * (3 / 16.0 - e2 / 32));
        p *= e;
        c[2] = p * (-1 / 16.0 + e2 * (1 / 32.0 - e2 * 9 / 2048));
        p *= e;
        c[3] = p * (-1 / 48.0 + e2 * 3 / 256);
        p *= e;
        c[4] = p * (-5 / 512.0 + e2 * 3 / 512);
        p *= e;
        c[5] = p * -7 / 1280;
        p *= e;
        c[6] = p * -7 / 2048;
    }

    /// <summary>C₁′ (21): arc length as a function of distance.</summary>
    public static void C1Reverted(double e, Span<double> c)
    {
        double e2 = e * e, p = e;
        c[1] = p * (1 / 2.0 + e2 * (-9 / 32.0 + e2 * 205 / 1536));
        p *= e;
        c[2] = p * (5 / 16.0 + e2 * (-37 / 96.0 + e2 * 1335 / 4096));
        p *= e;
        c[3] = p * (29 / 96.0 - e2 * 75 / 128);
        p *= e;
        c[4] = p * (539 / 1536.0 - e2 * 2391 / 2560);
        p *= e;
        c[5] = p * 3467 / 7680;
        p *= e;
        c[6] = p * 38081 / 61440;
    }

    /// <summary>A₂ (42): scale of the integral I₂ in the reduced length.</summary>
    public static double A2(double e)
    {
        double e2 = e * e;
        return (1 + e2 * (1 / 4.0 + e2 * (9 / 64.0 + e2 * 25 / 256))) * (1 - e);
    }

    /// <summary>C₂ (43): coefficients of I₂.</summary>
    public static void C2(double e, Span<double> c)
    {
        double e2 = e * e, p = e;
        c[1] = p * (1 / 2.0 + e2 * (1 / 16.0 + e2 / 32));
        p *= e;
        c[2] = p * (3 / 16.0 + e2 * (1 / 32.0 + e2 * 35 / 2048));
        p *= e;
        c[3] = p * (5 / 48.0 + e2 * 5 / 256);
        p *= e;
        c[4] = p * (35 / 512.0 + e2 * 7 / 512);
        p *= e;
        c[5] = p * 63 / 1280;
        p *= e;
        c[6] = p * 77 / 2048;
    }

    /// <summary>A₃ (24): scale of the longitude integral I₃. <paramref name="n"/> is the third flattening.</summary>
    public static double A3(double e, double n) =>
        1 - e * ((1 - n) / 2 + e * ((2 + n - 3 * n * n) / 8 + e * ((1 + 3 * n + n * n) / 16
            + e * ((3 + 2 * n) / 64 + e * 3 / 128))));

    /// <summary>C₃ (25): coefficients of the longitude integral; [6] is not used at this order.</summary>
    public static void C3(double e, double n, Span<double> c)
    {
        double n2 = n * n, p = e;
        c[1] = p * ((1 - n) / 4 + e * ((1 - n2) / 8 + e * ((3 + 3 * n - n2) / 64 + e * ((5 + 2 * n) / 128
            + e * 3 / 128))));
        p *= e;
        c[2] = p * ((2 - 3 * n + n2) / 32 + e * ((3 - 2 * n - 3 * n2) / 64 + e * ((3 + n) / 128 + e * 5 / 256)));
        p *= e;
        c[3] = p * ((5 - 9 * n + 5 * n2) / 192 + e * ((9 - 10 * n) / 384 + e * 7 / 512));
        p *= e;
        c[4] = p * ((7 - 14 * n) / 512 + e * 7 / 512);
        p *= e;
        c[5] = p * 21 / 2560;
        c[6] = 0;
    }

    /// <summary>Sum of c[k]·sin(2kσ) for k = 1…6, by Clenshaw's recurrence.</summary>
    public static double SinSum(double sinSigma, double cosSigma, ReadOnlySpan<double> c)
    {
        double twoCos2 = 2 * (cosSigma - sinSigma) * (cosSigma + sinSigma);
        double b1 = 0, b2 = 0;
        for (int k = 6; k >= 1; k--)
            (b1, b2) = (c[k] + twoCos2 * b1 - b2, b1);
        return b1 * 2 * sinSigma * cosSigma;
    }
}
