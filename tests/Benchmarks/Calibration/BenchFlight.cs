using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Benchmarks.Calibration;

/// <summary>
/// One simulated flight, second by second. Written apart from the project's own simulator and plainer than it, so that
/// hundreds run in a minute and an error in one is not an error in both.
/// </summary>
internal sealed class BenchFlight
{
    private const double StepS = 0.5, LineM = 8;
    private static readonly Instant Launch = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));

    private readonly Conditions _day;
    private readonly SeededRandom _random;
    private readonly Weather _weather;
    private readonly DensityTable _density;
    private readonly double _ascentMps, _launchM, _rough, _seaLevelMps;
    private readonly bool _tangled;
    private readonly GeoPoint _site;
    private double _gustE, _gustN, _gustU, _drag, _bob, _slowE, _slowN, _slowU, _swingE, _swingE2, _swingN, _swingN2;

    public BenchFlight(Conditions day, int number)
    {
        _day = day;
        _random = new SeededRandom(day.Seed, (ulong)number + 1);
        _weather = new Weather(day, _random);
        _density = new DensityTable(new AtmosphereProfile(_random.NextBetween(-1, 1) * day.KelvinOff));
        _ascentMps = _random.NextBetween(3.5, 6.5);
        BurstM = _random.NextBetween(24_000, 34_000);
        _launchM = _random.NextBetween(50, 600);
        _rough = day.Rough * _random.NextGaussian();
        _tangled = _random.NextChance(day.Tangled);
        _seaLevelMps = _random.NextBetween(3, 8) * (_tangled ? _random.NextBetween(1.2, 1.8) : 1);
        _site = new GeoPoint(_random.NextBetween(30, 60), _random.NextBetween(-10, 30));
        Position = _site;
        HeightM = _launchM;
    }

    public double BurstM { get; }

    public double TimeS { get; private set; } = -60;

    public Instant Utc => Launch.PlusSeconds(TimeS);

    public double HeightM { get; private set; }

    public GeoPoint Position { get; private set; }

    public bool Falling { get; private set; }

    public double BurstS { get; private set; } = double.NaN;

    public bool Landed { get; private set; }

    public double GroundM
    {
        get
        {
            (double e, double n) = LocalFrame.Between(_site, Position, 0);
            double km = Math.Sqrt(e * e + n * n) / 1000;
            return Math.Max(_launchM + Math.Clamp(10 * Math.Sqrt(km) * _rough, -150, 150), 0);
        }
    }

    private double Speed { get; set; }

    /// <summary>Goes on by a second; the fix heard at its end, or null: none due, lost, or damaged.</summary>
    public Fix? Second()
    {
        for (int i = 0; i < 2 && !Landed; i++) Step();
        TimeS += 1;
        Fix fix = Observe();
        double above = HeightM - GroundM;
        bool lost = _random.NextChance(0.02) || (Falling && _random.NextDouble() < (400 - above) / 200);
        return lost || (long)Math.Round(TimeS) % _day.EveryS != 0 ? null : fix;
    }

    private void Step()
    {
        if (TimeS < 0) return;
        double Next(double x, double memoryS)
        {
            double keep = Math.Exp(-StepS / memoryS);
            return keep * x + Math.Sqrt(1 - keep * keep) * _random.NextGaussian();
        }
        (_gustE, _gustN, _gustU, _drag) = (Next(_gustE, 8), Next(_gustN, 8), Next(_gustU, 8), Next(_drag, 20));
        _bob = Next(_bob, 10);
        double gust = _day.GustMps * (1 + 2 * Math.Exp(-(HeightM - _launchM) / 800));
        if (Falling)
        {
            double steady = _seaLevelMps * _density.FallFactor(HeightM) *
                (1 + _day.Unsteady * (_tangled ? 3 : 1) * _drag);
            // v' = g(1 − v²/v∞²), implicit: stable however fast it settles.
            double g = AtmosphereProfile.Gravity(HeightM), a = g * StepS / (steady * steady);
            Speed = (Math.Sqrt(1 + 4 * a * (Speed + g * StepS)) - 1) / (2 * a);
        }
        double rate = Falling ? -Speed : _ascentMps * (1 + 0.004 * (HeightM - _launchM) / 1000);
        WindVector wind = _weather.At(HeightM, TimeS);
        Position = LocalFrame.Move(Position, (wind.EastMps + gust * _gustE) * StepS,
            (wind.NorthMps + gust * _gustN) * StepS, HeightM);
        double bob = Falling ? _day.Bob * (_tangled ? 4 : 1) * _bob : 0;
        HeightM += (rate + 0.5 * gust * _gustU + bob) * StepS;
        if (!Falling && HeightM >= BurstM) (Falling, BurstS) = (true, TimeS);
        if (Falling && HeightM <= GroundM) Landed = true;
    }

    private Fix Observe()
    {
        double keep = Math.Exp(-1.0 / 60), add = Math.Sqrt(1 - keep * keep);
        _slowE = keep * _slowE + add * _random.NextGaussian();
        _slowN = keep * _slowN + add * _random.NextGaussian();
        _slowU = keep * _slowU + add * _random.NextGaussian();
        (_swingE, _swingE2) = Swing(_swingE, _swingE2);
        (_swingN, _swingN2) = Swing(_swingN, _swingN2);
        double reach = !Falling || Landed ? 0
            : LineM * Math.Sin(_day.SwingDeg * (_tangled ? 4 : 1) * Math.PI / 180);
        double n = _day.Noise;
        return new Fix
        {
            Source = new SourceId("radio1"),
            Heard = Launch.PlusSeconds(TimeS + 0.3),
            Utc = Launch.PlusSeconds(TimeS),
            DateFrom = DateOrigin.Receiver,
            Position = LocalFrame.Move(Position, n * (1.5 * _slowE + 0.5 * _random.NextGaussian()) + reach * _swingE,
                n * (1.5 * _slowN + 0.5 * _random.NextGaussian()) + reach * _swingN, HeightM),
            Height = new HeightMsl(HeightM + n * (3 * _slowU + 0.8 * _random.NextGaussian())),
            Hdop = 0.9,
            SatellitesUsed = 10,
        };
    }

    /// <summary>A pendulum driven at random, unit rms, memory three periods.</summary>
    private (double Place, double Rate) Swing(double place, double rate)
    {
        double omega = Math.Sqrt(AtmosphereProfile.StandardGravity / LineM);
        double keep = Math.Exp(-omega / (6 * Math.PI)), add = Math.Sqrt(1 - keep * keep);
        (double sin, double cos) = Math.SinCos(omega);
        return (keep * (place * cos - rate * sin) + add * _random.NextGaussian(),
            keep * (place * sin + rate * cos) + add * _random.NextGaussian());
    }
}
