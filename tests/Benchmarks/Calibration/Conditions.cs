using System.Globalization;

namespace Groundstation.Benchmarks.Calibration;

/// <summary>How the true wind changes in time.</summary>
internal enum ChangeLaw
{
    /// <summary>A random walk: variance of the difference grows with the time between.</summary>
    Walk,

    /// <summary>A stationary field with an exponential correlation in time.</summary>
    Field,

    /// <summary>Steadily in one direction: the difference itself grows with the time between.</summary>
    Trend,
}

/// <summary>What the simulated days are like. The defaults are those of the figures in <c>results/</c>.</summary>
internal sealed record Conditions
{
    public int Flights { get; private set; } = 200;

    public ulong Seed { get; private set; } = 1;

    /// <summary>Standard deviation of each component's change over three hours, m/s.</summary>
    public double ChangeMps { get; private set; } = 2;

    /// <summary>Height over which it goes together (e-fold), m.</summary>
    public double LengthM { get; private set; } = 1500;

    public ChangeLaw Law { get; private set; } = ChangeLaw.Walk;

    /// <summary>Gusts well above the ground, m/s a component; three times that at the ground.</summary>
    public double GustMps { get; private set; } = 0.5;

    /// <summary>Unsteady drag of a good canopy, share of the rate; tangled ones three times that.</summary>
    public double Unsteady { get; private set; } = 0.02;

    /// <summary>Vertical motion that passes in 10 s, m/s; tangled canopies four times that.</summary>
    public double Bob { get; private set; } = 0.3;

    /// <summary>Swing of a good canopy, degrees rms; tangled ones four times that.</summary>
    public double SwingDeg { get; private set; } = 5;

    /// <summary>Receiver noise as a multiple of the usual.</summary>
    public double Noise { get; private set; } = 1;

    /// <summary>Seconds between fixes.</summary>
    public int EveryS { get; private set; } = 1;

    /// <summary>Departure of temperature from standard, K either way.</summary>
    public double KelvinOff { get; private set; } = 8;

    /// <summary>Share of tangled canopies.</summary>
    public double Tangled { get; private set; } = 0.25;

    /// <summary>Roughness of the landing ground, as a multiple of open country (10 m over a kilometre, growing with the root).</summary>
    public double Rough { get; private set; } = 1;

    /// <summary>Strength of jet and stratospheric winds, as a multiple of the usual.</summary>
    public double Winds { get; private set; } = 1;

    /// <summary>Reads <c>--name value</c> pairs; null with a line on standard error when one is not understood.</summary>
    public static Conditions? Parse(string[] args)
    {
        var c = new Conditions();
        for (int i = 0; i < args.Length; i += 2)
        {
            string value = i + 1 < args.Length ? args[i + 1] : "";
            bool number = double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out double x) && x >= 0;
            Conditions? next = args[i] switch
            {
                "--flights" when number && x >= 1 => c with { Flights = (int)x },
                "--seed" when number => c with { Seed = (ulong)x },
                "--change" when number => c with { ChangeMps = x },
                "--length" when number && x > 0 => c with { LengthM = x },
                "--law" when Enum.TryParse(value, true, out ChangeLaw law) => c with { Law = law },
                "--gust" when number => c with { GustMps = x },
                "--unsteady" when number => c with { Unsteady = x },
                "--swing" when number => c with { SwingDeg = x },
                "--noise" when number => c with { Noise = x },
                "--every" when number && x >= 1 => c with { EveryS = (int)x },
                "--kelvin" when number => c with { KelvinOff = x },
                "--tangled" when number && x <= 1 => c with { Tangled = x },
                "--rough" when number => c with { Rough = x },
                "--bob" when number => c with { Bob = x },
                "--winds" when number => c with { Winds = x },
                _ => null,
            };
            if (next is null)
            {
                Console.Error.WriteLine($"calibrate: {args[i]} {value} not understood; see Conditions for the names");
                return null;
            }
            c = next;
        }
        return c;
    }

    /// <summary>All of them on one line.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"--flights {Flights} --seed {Seed} --change {ChangeMps} --length {LengthM} --law {Law.ToString().ToLowerInvariant()} --gust {GustMps} --unsteady {Unsteady} --bob {Bob} --swing {SwingDeg} --noise {Noise} --every {EveryS} --kelvin {KelvinOff} --tangled {Tangled} --rough {Rough} --winds {Winds}");
}
