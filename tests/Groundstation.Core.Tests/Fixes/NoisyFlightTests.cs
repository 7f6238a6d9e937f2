using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>
/// Whole flights with noise: pad, ascent through a jet stream, burst, fall, landing. No fix of them may be refused.
/// </summary>
public sealed class NoisyFlightTests
{
    [Theory]
    [InlineData(0.1, 2.5, 0, 30_000, 5, 5, 0.1)]
    [InlineData(0.1, 5, 30, 35_000, 9, 8, 0.1)]
    [InlineData(0.2, 2.5, 0, 35_000, 9, 8, 0.1)]
    [InlineData(0.2, 5, 0, 33_000, 30, 6, 1)] // no canopy, altitude in whole metres
    [InlineData(1, 2.5, 0, 30_000, 5, 5, 0.1)]
    [InlineData(1, 1, 30, 20_000, 3.5, 3, 0.1)]
    [InlineData(1, 5, 0, 33_000, 30, 6, 1)]
    [InlineData(5, 5, 30, 33_000, 30, 6, 1)]
    [InlineData(5, 2.5, 0, 35_000, 9, 8, 0.1)]
    [InlineData(20, 2.5, 30, 33_000, 9, 8, 0.1)]
    public void No_good_fix_is_refused(double hz, double sigmaM, double wanderS, double burstM, double fallMps,
        double climbMps, double stepM)
    {
        var judge = new FixJudge(FlightPlan.Default);
        var random = new Noise(20260621);
        var start = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));
        double memory = wanderS > 0 ? Math.Exp(-1 / (hz * wanderS)) : 0;
        double fresh = Math.Sqrt(1 - memory * memory);
        (double east, double north, double height, double up) = (0, 0, 300, 0);
        (double offEast, double offNorth, double offUp) = (0, 0, 0);
        (bool burst, double landedS) = (false, 0);
        const double Step = 0.05;
        int each = (int)Math.Round(1 / (hz * Step));
        for (int i = 0; landedS < 60; i++)
        {
            double t = i * Step;
            double eastMps = 5 + 65 * Math.Exp(-Math.Pow((height - 11_000) / 1500, 2)) + 5 * Math.Sin(height / 300);
            double northMps = 10 * Math.Sin(height / 700);
            bool standing = t < 60 || landedS > 0;
            if (standing)
                (eastMps, northMps, up) = (0, 0, 0);
            else if (!burst)
                up += (climbMps + 0.7 * Math.Sin(t / 40) - up) * Step / 1.5;
            else
                up += (-9.81 + 9.81 / (fallMps * fallMps) * StandardAtmosphere.DensityKgM3(height) / 1.225 * up * up) * Step;
            height += up * Step;
            east += eastMps * Step;
            north += northMps * Step;
            burst |= height > burstM;
            if (burst && height < 200)
                landedS += Step;
            if (i % each != 0)
                continue;
            offEast = offEast * memory + fresh * sigmaM * random.Normal();
            offNorth = offNorth * memory + fresh * sigmaM * random.Normal();
            offUp = offUp * memory + fresh * 1.5 * sigmaM * random.Normal();
            Instant utc = start.PlusSeconds(t);
            Fix fix = judge.Judge(new Fix
            {
                Source = new SourceId("radio1"),
                Heard = utc,
                Utc = utc,
                DateFrom = DateOrigin.Receiver,
                Position = new GeoPoint(Printed(52 + (north + offNorth) / 111_195),
                    Printed((east + offEast) / 111_195 / Math.Cos(52 * Math.PI / 180))),
                Height = new HeightMsl(Math.Round((height + offUp) / stepM) * stepM),
                Quality = FixQuality.Autonomous,
                SatellitesUsed = 10,
                Hdop = 0.9,
                SpeedMps = Math.Sqrt(eastMps * eastMps + northMps * northMps),
                CourseDeg = Math.Atan2(eastMps, northMps) * 180 / Math.PI,
            }, Telemetry.None);
            Assert.True(fix.Believed, FormattableString.Invariant($"at {t} s, {height:F0} m: {fix.Refused}: {fix.Detail}"));
        }
    }

    // Five decimals of a minute.
    private static double Printed(double degrees) => Math.Round(degrees * 6e6) / 6e6;

    // xorshift64 and Box-Muller: the same numbers on every machine.
    private sealed class Noise(ulong seed)
    {
        private ulong _state = seed;

        public double Normal() =>
            Math.Sqrt(-2 * Math.Log(1 - Uniform())) * Math.Cos(2 * Math.PI * Uniform());

        private double Uniform()
        {
            _state ^= _state << 13;
            _state ^= _state >> 7;
            _state ^= _state << 17;
            return (_state >> 11) / (double)(1UL << 53);
        }
    }
}
