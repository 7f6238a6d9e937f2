namespace Groundstation.Core.Earth;

/// <summary>
/// One inverse problem in the form λ₁₂ ≥ 0, φ₁ ≤ 0, |φ₁| ≥ |φ₂| (Karney 2013, equation 44). α is the azimuth, β the
/// reduced latitude, σ the arc and ω the longitude on the auxiliary sphere, λ the longitude on the ellipsoid.
/// </summary>
internal readonly ref struct GeodesicProblem
{
    private const double Tiny = GeodesicDirect.Tiny;

    private readonly double _a, _f, _f1, _n, _ep2, _b, _lambda12, _sinLambda12, _cosLambda12;
    private readonly double _sinB1, _cosB1, _sinB2, _cosB2, _dn1, _dn2;
    private readonly bool _meridional, _equatorial;

    public GeodesicProblem(Ellipsoid ellipsoid, double lat1Deg, double lat2Deg, double lon12Deg)
    {
        _a = ellipsoid.EquatorialRadiusM;
        _f = ellipsoid.Flattening;
        _f1 = 1 - _f;
        _n = _f / (2 - _f);
        _ep2 = ellipsoid.EccentricitySquared / (_f1 * _f1);
        _b = _a * _f1;
        _lambda12 = lon12Deg * Angles.RadPerDeg;
        (_sinLambda12, _cosLambda12) = Angles.SinCosDeg(lon12Deg);
        (_sinB1, _cosB1) = GeodesicDirect.Reduced(lat1Deg, _f1);
        (_sinB2, _cosB2) = GeodesicDirect.Reduced(lat2Deg, _f1);

        // Equal latitudes must be equal to the last bit, or the special case in (46) is missed.
        if (Math.Abs(lat1Deg) == Math.Abs(lat2Deg))
            (_sinB2, _cosB2) = (Math.CopySign(_sinB1, lat2Deg), _cosB1);
        _dn1 = Math.Sqrt(1 + _ep2 * _sinB1 * _sinB1);
        _dn2 = Math.Sqrt(1 + _ep2 * _sinB2 * _sinB2);
        _meridional = lat1Deg == -90 || _sinLambda12 == 0;
        _equatorial = lat1Deg == 0 && lon12Deg <= 180 * (1 - _f);
    }

    /// <summary>Distance in metres, and sines and cosines of both azimuths.</summary>
    public double Solve(out double sinA1, out double cosA1, out double sinA2, out double cosA2)
    {
        if (_meridional)
            return Meridian(out sinA1, out cosA1, out sinA2, out cosA2);
        if (_equatorial)
        {
            (sinA1, cosA1, sinA2, cosA2) = (1, 0, 1, 0);
            return _a * _lambda12;
        }

        if (Start(out sinA1, out cosA1, out sinA2, out cosA2) is { } sigma)
            return sigma;
        return Newton(ref sinA1, ref cosA1, out sinA2, out cosA2);
    }

    // Along a meridian: on an oblate ellipsoid the shortest line between two places of one meridian's circle.
    private double Meridian(out double sinA1, out double cosA1, out double sinA2, out double cosA2)
    {
        (sinA1, cosA1, sinA2, cosA2) = (_sinLambda12, _cosLambda12, 0, 1);
        double sinS1 = _sinB1, cosS1 = cosA1 * _cosB1, sinS2 = _sinB2, cosS2 = cosA2 * _cosB2;
        double sigma = Math.Atan2(Math.Max(0, cosS1 * sinS2 - sinS1 * cosS2), cosS1 * cosS2 + sinS1 * sinS2);
        Lengths(_n, sigma, sinS1, cosS1, sinS2, cosS2, out double s, out _);
        return Math.Max(0, s) * _b;
    }

    // Distance (7) and reduced length (38) between two points of a geodesic, both over b.
    private void Lengths(double eps, double sigma, double sinS1, double cosS1, double sinS2, double cosS2,
        out double distance, out double reduced)
    {
        Span<double> c = stackalloc double[GeodesicSeries.Size];
        GeodesicSeries.C1(eps, c);
        double a1 = GeodesicSeries.A1(eps);
        double i1 = a1 * (sigma
            + GeodesicSeries.SinSum(sinS2, cosS2, c) - GeodesicSeries.SinSum(sinS1, cosS1, c));
        GeodesicSeries.C2(eps, c);
        double i2 = GeodesicSeries.A2(eps) * (sigma
            + GeodesicSeries.SinSum(sinS2, cosS2, c) - GeodesicSeries.SinSum(sinS1, cosS1, c));
        distance = i1;
        reduced = _dn2 * cosS1 * sinS2 - _dn1 * sinS1 * cosS2 - cosS1 * cosS2 * (i1 - i2);
    }

    // Starting azimuth; the distance at once when the line is so short that the sphere of (48) will do.
    private double? Start(out double sinA1, out double cosA1, out double sinA2, out double cosA2)
    {
        double sinB12 = _sinB2 * _cosB1 - _cosB2 * _sinB1, cosB12 = _cosB2 * _cosB1 + _sinB2 * _sinB1;
        double sinB12a = _sinB2 * _cosB1 + _cosB2 * _sinB1;
        bool shortLine = cosB12 >= 0 && sinB12 < 0.5 && _cosB2 * _lambda12 < 0.5;
        double sinOmega = _sinLambda12, cosOmega = _cosLambda12, dnMean = 1;
        if (shortLine)
        {
            double sinMean2 = (_sinB1 + _sinB2) * (_sinB1 + _sinB2);
            sinMean2 /= sinMean2 + (_cosB1 + _cosB2) * (_cosB1 + _cosB2);
            dnMean = Math.Sqrt(1 + _ep2 * sinMean2);
            (sinOmega, cosOmega) = Math.SinCos(_lambda12 / (_f1 * dnMean));
        }

        sinA1 = _cosB2 * sinOmega;
        cosA1 = cosOmega >= 0
            ? sinB12 + _cosB2 * _sinB1 * sinOmega * sinOmega / (1 + cosOmega)
            : sinB12a - _cosB2 * _sinB1 * sinOmega * sinOmega / (1 - cosOmega);
        double sinSigma = double.Hypot(sinA1, cosA1), cosSigma = _sinB1 * _sinB2 + _cosB1 * _cosB2 * cosOmega;
        (sinA2, cosA2) = (0, 1);
        if (shortLine && sinSigma < ShortSigma)
        {
            sinA2 = _cosB1 * sinOmega;
            double turn = cosOmega >= 0 ? sinOmega * sinOmega / (1 + cosOmega) : 1 - cosOmega;
            cosA2 = sinB12 - _cosB1 * _sinB2 * turn;
            (sinA1, cosA1) = sinSigma == 0 ? (0, 1) : GeodesicDirect.Norm(sinA1, cosA1);
            (sinA2, cosA2) = sinSigma == 0 ? (0, 1) : GeodesicDirect.Norm(sinA2, cosA2);
            return Math.Atan2(sinSigma, cosSigma) * _b * dnMean;
        }

        if (cosSigma < 0 && sinSigma < 6 * _n * Math.PI * _cosB1 * _cosB1)
            NearAntipodal(sinB12a, ref sinA1, ref cosA1);
        (sinA1, cosA1) = sinA1 > 0 ? GeodesicDirect.Norm(sinA1, cosA1) : (1, 0);
        return null;
    }

    // Lines under 0.2 m: up to there the sphere of the mean latitude is as good as the series (error f·σ²).
    private const double ShortSigma = 3.6e-8;

    // Section 5: near the antipode the geodesics form an astroid; (53)–(56) and, for small y, (57).
    private void NearAntipodal(double sinB12a, ref double sinA1, ref double cosA1)
    {
        double k2 = _sinB1 * _sinB1 * _ep2;
        double eps = k2 / (2 * (1 + Math.Sqrt(1 + k2)) + k2);
        double lambdaScale = _f * _cosB1 * GeodesicSeries.A3(eps, _n) * Math.PI;
        double betaScale = lambdaScale * _cosB1;
        double x = Math.Atan2(-_sinLambda12, -_cosLambda12) / lambdaScale;
        double y = sinB12a / betaScale;
        if (y > -1e-13 && x > -1 - 1e-7)
        {
            sinA1 = Math.Min(1, -x);
            cosA1 = -Math.Sqrt(1 - sinA1 * sinA1);
            return;
        }

        double k = Astroid(x, y);
        double omegaA = lambdaScale * -x * k / (1 + k);
        (double sinOmega, double cosOmega) = Math.SinCos(omegaA);
        cosOmega = -cosOmega;
        sinA1 = _cosB2 * sinOmega;
        cosA1 = sinB12a - _cosB2 * _sinB1 * sinOmega * sinOmega / (1 - cosOmega);
    }

    // Positive root of κ⁴ + 2κ³ − (x² + y² − 1)κ² − 2y²κ − y² = 0 (55), by Ferrari's and Cardano's formulas (56).
    private static double Astroid(double x, double y)
    {
        double p = x * x, q = y * y, r = (p + q - 1) / 6;
        if (q == 0 && r <= 0)
            return 0;
        double s = p * q / 4, r2 = r * r, r3 = r * r2;
        double disc = s * (s + 2 * r3), u = r;
        if (disc >= 0)
        {
            double t3 = s + r3;
            t3 += t3 < 0 ? -Math.Sqrt(disc) : Math.Sqrt(disc);
            double t = Math.Cbrt(t3);
            u += t + (t != 0 ? r2 / t : 0);
        }
        else
        {
            u += 2 * r * Math.Cos(Math.Atan2(Math.Sqrt(-disc), -(s + r3)) / 3);
        }

        double v = Math.Sqrt(u * u + q);
        double uv = u < 0 ? q / (v - u) : u + v;
        double w = (uv - q) / (2 * v);
        return uv / (Math.Sqrt(uv + w * w) + w);
    }

    private double Newton(ref double sinA1, ref double cosA1, out double sinA2, out double cosA2)
    {
        // λ₁₂ grows with α₁, so the azimuths tried so far bracket the answer; where Newton leaves them, halve.
        // A residual of 10⁻¹⁵ is 6 nm on the equator.
        double lowSin = Tiny, lowCos = 1, highSin = Tiny, highCos = -1;
        for (int iteration = 0; ; iteration++)
        {
            double v = Longitude(sinA1, cosA1, out sinA2, out cosA2, out double distance, out double slope);
            bool closed = Math.Abs(lowSin - highSin) + Math.Abs(lowCos - highCos) < 1e-15;
            if (Math.Abs(v) < 1e-15 || closed || iteration >= 83)
                return distance;
            if (v > 0 && (iteration > 20 || cosA1 / sinA1 > highCos / highSin))
                (highSin, highCos) = (sinA1, cosA1);
            else if (v < 0 && (iteration > 20 || cosA1 / sinA1 < lowCos / lowSin))
                (lowSin, lowCos) = (sinA1, cosA1);
            double step = -v / slope;
            if (iteration < 20 && slope > 0 && Math.Abs(step) < Math.PI)
            {
                (double sinD, double cosD) = Math.SinCos(step);
                double next = sinA1 * cosD + cosA1 * sinD;
                if (next > 0)
                {
                    (sinA1, cosA1) = GeodesicDirect.Norm(next, cosA1 * cosD - sinA1 * sinD);
                    continue;
                }
            }

            (sinA1, cosA1) = GeodesicDirect.Norm((lowSin + highSin) / 2, (lowCos + highCos) / 2);
        }
    }

    // λ₁₂(α₁) − λ₁₂ and its derivative (46), with the far azimuth (5), (45) and the distance.
    private double Longitude(double sinA1, double cosA1, out double sinA2, out double cosA2, out double distance,
        out double slope)
    {
        if (_sinB1 == 0 && cosA1 == 0)
            cosA1 = -Tiny;
        double sinA0 = sinA1 * _cosB1, cosA0 = double.Hypot(cosA1, sinA1 * _sinB1);
        double sinO1 = sinA0 * _sinB1, cosO1 = cosA1 * _cosB1;
        (double sinS1, double cosS1) = GeodesicDirect.Norm(_sinB1, cosO1);
        sinA2 = _cosB2 != _cosB1 ? sinA0 / _cosB2 : sinA1;
        double under = _cosB1 < -_sinB1
            ? (_cosB2 - _cosB1) * (_cosB1 + _cosB2)
            : (_sinB1 - _sinB2) * (_sinB1 + _sinB2);
        cosA2 = _cosB2 != _cosB1 || Math.Abs(_sinB2) != -_sinB1
            ? Math.Sqrt(cosA1 * _cosB1 * (cosA1 * _cosB1) + under) / _cosB2
            : Math.Abs(cosA1);
        double sinO2 = sinA0 * _sinB2, cosO2 = cosA2 * _cosB2;
        (double sinS2, double cosS2) = GeodesicDirect.Norm(_sinB2, cosO2);
        double sigma = Math.Atan2(Math.Max(0, cosS1 * sinS2 - sinS1 * cosS2), cosS1 * cosS2 + sinS1 * sinS2);
        double sinO12 = Math.Max(0, cosO1 * sinO2 - sinO1 * cosO2), cosO12 = cosO1 * cosO2 + sinO1 * sinO2;

        // ω₁₂ − λ₁₂ in one arctangent keeps its last digits.
        double eta = Math.Atan2(sinO12 * _cosLambda12 - cosO12 * _sinLambda12,
            cosO12 * _cosLambda12 + sinO12 * _sinLambda12);
        double k2 = cosA0 * cosA0 * _ep2;
        double eps = k2 / (2 * (1 + Math.Sqrt(1 + k2)) + k2);
        Span<double> c = stackalloc double[GeodesicSeries.Size];
        GeodesicSeries.C3(eps, _n, c);
        double b3 = GeodesicSeries.SinSum(sinS2, cosS2, c) - GeodesicSeries.SinSum(sinS1, cosS1, c);
        double v = eta - _f * GeodesicSeries.A3(eps, _n) * sinA0 * (sigma + b3);
        Lengths(eps, sigma, sinS1, cosS1, sinS2, cosS2, out double s, out double m);
        distance = s * _b;
        slope = cosA2 == 0 ? -2 * _f1 * _dn1 / _sinB1 : m * _f1 / (cosA2 * _cosB2);
        return v;
    }
}
