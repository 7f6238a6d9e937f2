namespace Groundstation.Core.Earth;

/// <summary>The direct problem, Karney 2013 section 3 (equation numbers in brackets).</summary>
internal static class GeodesicDirect
{
    public static GeoPoint Solve(Ellipsoid ellipsoid, GeoPoint from, double azimuthDeg, double distanceM,
        out double finalAzimuthDeg)
    {
        double f = ellipsoid.Flattening, f1 = 1 - f, n = f / (2 - f);
        double ep2 = ellipsoid.EccentricitySquared / (f1 * f1);
        (double sinAlpha1, double cosAlpha1) = Angles.SinCosDeg(azimuthDeg);
        (double sinBeta1, double cosBeta1) = Reduced(from.LatitudeDeg, f1);

        // (5): the azimuth where the geodesic crosses the equator.
        double sinAlpha0 = sinAlpha1 * cosBeta1;
        double cosAlpha0 = double.Hypot(cosAlpha1, sinAlpha1 * sinBeta1);

        // (11), (12): arc and spherical longitude from the equator's crossing to the start. The equatorial geodesic
        // (both arguments zero) starts at its crossing.
        double cosSigma1 = sinBeta1 == 0 && cosAlpha1 == 0 ? 1 : cosBeta1 * cosAlpha1;
        double sinOmega1 = sinAlpha0 * sinBeta1, cosOmega1 = cosSigma1;
        (double sinSigma1, cosSigma1) = Norm(sinBeta1, cosSigma1);

        double k2 = ep2 * cosAlpha0 * cosAlpha0;
        double eps = k2 / (2 * (1 + Math.Sqrt(1 + k2)) + k2);

        Span<double> c = stackalloc double[GeodesicSeries.Size];
        GeodesicSeries.C1(eps, c);
        double a1 = GeodesicSeries.A1(eps);
        double b1 = GeodesicSeries.SinSum(sinSigma1, cosSigma1, c);

        // (7), (20): τ₂ = τ₁ + s/(b·A₁), then σ₂ by the reverted series.
        double dTau = distanceM / (ellipsoid.PolarRadiusM * a1);
        (double sinB, double cosB) = Math.SinCos(b1);
        (double sinTau1, double cosTau1) = (sinSigma1 * cosB + cosSigma1 * sinB, cosSigma1 * cosB - sinSigma1 * sinB);
        (double sinD, double cosD) = Math.SinCos(dTau);
        (double sinTau2, double cosTau2) = (sinTau1 * cosD + cosTau1 * sinD, cosTau1 * cosD - sinTau1 * sinD);
        GeodesicSeries.C1Reverted(eps, c);
        double dSigma = dTau + b1 + GeodesicSeries.SinSum(sinTau2, cosTau2, c);
        (sinD, cosD) = Math.SinCos(dSigma);
        double sinSigma2 = sinSigma1 * cosD + cosSigma1 * sinD, cosSigma2 = cosSigma1 * cosD - sinSigma1 * sinD;

        // (13), (14), (12).
        double sinBeta2 = cosAlpha0 * sinSigma2;
        double cosBeta2 = double.Hypot(sinAlpha0, cosAlpha0 * cosSigma2);
        double sinOmega2 = sinAlpha0 * sinSigma2, cosOmega2 = cosSigma2;
        double cosAlpha2 = cosAlpha0 * cosSigma2;
        if (cosBeta2 == 0)
        {
            // On the pole to the last bit: leave along the meridian of arrival.
            cosBeta2 = cosOmega2 = cosAlpha2 = Tiny;
        }

        // (8), (23): longitude. ω₂ − ω₁ as one angle, kept continuous by the turns in σ.
        double turn = Math.CopySign(1, sinAlpha0);
        double dOmega = turn * (dSigma
            - (Math.Atan2(sinSigma2, cosSigma2) - Math.Atan2(sinSigma1, cosSigma1))
            + (Math.Atan2(turn * sinOmega2, cosOmega2) - Math.Atan2(turn * sinOmega1, cosOmega1)));
        GeodesicSeries.C3(eps, n, c);
        double b3 = GeodesicSeries.SinSum(sinSigma2, cosSigma2, c) - GeodesicSeries.SinSum(sinSigma1, cosSigma1, c);
        double dLambda = dOmega - f * GeodesicSeries.A3(eps, n) * sinAlpha0 * (dSigma + b3);

        finalAzimuthDeg = Angles.Azimuth(Angles.Atan2Deg(sinAlpha0, cosAlpha2));
        double latitude = Angles.Atan2Deg(sinBeta2, f1 * cosBeta2);
        double dLon = Math.IEEERemainder(dLambda / Angles.RadPerDeg, 360);
        return new(latitude, LocalFrame.NormalLongitude(LocalFrame.NormalLongitude(from.LongitudeDeg) + dLon));
    }

    /// <summary>Stands for the cosine of a reduced latitude at a pole, so that no quotient is 0/0.</summary>
    public const double Tiny = 1e-150;

    /// <summary>Sine and cosine of the reduced latitude, tan β = (1 − f)·tan φ (6); the cosine is never 0.</summary>
    public static (double Sin, double Cos) Reduced(double latitudeDeg, double f1)
    {
        (double sin, double cos) = Angles.SinCosDeg(latitudeDeg);
        (sin, cos) = Norm(sin * f1, cos);
        return (sin, Math.Max(Tiny, cos));
    }

    public static (double Sin, double Cos) Norm(double sin, double cos)
    {
        double h = double.Hypot(sin, cos);
        return (sin / h, cos / h);
    }
}
