using Groundstation.Core.Air;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Tests.Flight;

/// <summary>A flight made by hand: rates and winds as told, one believed fix each step, fed to a tracker.</summary>
internal sealed class Flown
{
    public static readonly Instant Start = Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));
    private readonly SeededRandom _random;
    private readonly double _stepS;
    private double _east, _north, _up;
    private double _astrayE, _astrayUp;
    private bool _anew;

    public Flown(double heightM = 100, double stepS = 1, FlightPlan? plan = null, ulong seed = 7)
    {
        _random = new SeededRandom(seed);
        (_stepS, HeightM) = (stepS, heightM);
        Tracker = new FlightTracker(plan ?? FlightPlan.Default);
    }

    public FlightTracker Tracker { get; }

    public GeoPoint Position { get; private set; } = new(47, 8);

    public double HeightM { get; private set; }

    public double TimeS { get; private set; }

    public Instant Utc => Start.PlusSeconds(TimeS);

    public WindVector Wind { get; set; } = new(8, 3);

    /// <summary>Receiver noise of the height, m.</summary>
    public double NoiseM { get; init; } = 1;

    /// <summary>Slow wander of the receiver's place and height, m each, that passes in a minute.</summary>
    public double WanderM { get; init; }

    /// <summary>Vertical motion under an unsteady canopy that passes in 10 s, m/s.</summary>
    public double BobMps { get; init; }

    public List<Phase> Phases { get; } = [];

    public Flown Stand(double seconds) => Go(seconds, 0, default);

    public Flown Level(double seconds) => Go(seconds, 0, Wind);

    public Flown Climb(double toM, double mps = 5) => Go((toM - HeightM) / mps, mps, Wind);

    /// <summary>Falls at a rate given at sea level through air of a temperature off standard.</summary>
    public Flown Fall(double toM, double seaLevelMps = 6, double kelvin = 0)
    {
        var air = new DensityTable(new AtmosphereProfile(kelvin));
        double keep = Math.Exp(-_stepS / 10), bob = 0;
        while (HeightM > toM)
        {
            bob = keep * bob + Math.Sqrt(1 - keep * keep) * _random.NextGaussian();
            Go(_stepS, BobMps * bob - seaLevelMps * air.FallFactor(HeightM), Wind);
        }
        return this;
    }

    /// <summary>From the next fix on the receiver is so far off, m, and is believed against what went before.</summary>
    public Flown Jump(double eastM, double upM)
    {
        (_astrayE, _astrayUp, _anew) = (eastM, upM, true);
        return this;
    }

    private Flown Go(double seconds, double mps, WindVector wind)
    {
        for (double t = 0; t < seconds - 1e-9; t += _stepS)
        {
            TimeS += _stepS;
            HeightM += mps * _stepS;
            Position = LocalFrame.Move(Position, wind.EastMps * _stepS, wind.NorthMps * _stepS, HeightM);
            Wander();
            Tracker.Fix(new Fix
            {
                Source = new SourceId("radio1"),
                Heard = Utc.PlusSeconds(0.3),
                Utc = Utc,
                DateFrom = DateOrigin.Receiver,
                Position = LocalFrame.Move(Position, _astrayE + _east + _random.NextGaussian(), _north + _random.NextGaussian(), HeightM),
                Height = new HeightMsl(HeightM + _astrayUp + _up + NoiseM * _random.NextGaussian()),
                StartsAnew = _anew,
            });
            _anew = false;
            if (Phases.Count == 0 || Phases[^1] != Tracker.Phase) Phases.Add(Tracker.Phase);
        }
        return this;
    }

    private void Wander()
    {
        if (WanderM == 0) return;
        double keep = Math.Exp(-_stepS / 60), add = WanderM * Math.Sqrt(1 - keep * keep);
        (_east, _north, _up) = (keep * _east + add * _random.NextGaussian(), keep * _north + add * _random.NextGaussian(),
            keep * _up + add * _random.NextGaussian());
    }
}
