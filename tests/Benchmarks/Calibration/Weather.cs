using Groundstation.Core.Air;
using Groundstation.Core.Quantities;

namespace Groundstation.Benchmarks.Calibration;

/// <summary>A day's true wind: a random profile with jet, shear and a stratosphere that may reverse, and its change in time.</summary>
internal sealed class Weather
{
    private const double StepM = 250, SliceS = 120;
    private const int Nodes = 180, Slices = 140;

    private readonly double[] _east = new double[Nodes], _north = new double[Nodes];
    private readonly double[] _change = new double[Slices * Nodes * 2];

    public Weather(Conditions day, SeededRandom random)
    {
        Profile(day, random);
        Change(day, random);
    }

    /// <summary>Wind at a height above mean sea level, m, at a time after launch, s.</summary>
    public WindVector At(double heightM, double timeS)
    {
        double x = Math.Clamp(heightM / StepM, 0, Nodes - 1.001), y = Math.Clamp(timeS / SliceS, 0, Slices - 1.001);
        int i = (int)x, k = (int)y;
        double u = x - i, w = y - k;
        double Blend(int part)
        {
            int a = (k * Nodes + i) * 2 + part, b = a + Nodes * 2;
            return (1 - w) * ((1 - u) * _change[a] + u * _change[a + 2]) + w * ((1 - u) * _change[b] + u * _change[b + 2]);
        }
        return new((1 - u) * _east[i] + u * _east[i + 1] + Blend(0), (1 - u) * _north[i] + u * _north[i + 1] + Blend(1));
    }

    private void Profile(Conditions day, SeededRandom random)
    {
        double ground = random.NextBetween(0, 6), groundDir = random.NextBetween(0, 2 * Math.PI);
        double jet = day.Winds * random.NextBetween(10, 60), jetDir = groundDir + random.NextBetween(-1.2, 1.2);
        double jetAt = random.NextBetween(8500, 13_000), jetDepth = random.NextBetween(2500, 5000);
        // Above 20 km from 15 m/s with the jet to 20 m/s against it.
        double high = day.Winds * random.NextBetween(-20, 15), layer = random.NextBetween(600, 2000);
        double[] smooth = Field(random, 1500), other = Field(random, 1500);
        for (int i = 0; i < Nodes; i++)
        {
            double z = i * StepM, d = (z - jetAt) / jetDepth;
            double s = ground * (0.5 + 0.5 * Math.Min(z / layer, 1)), j = jet * Math.Exp(-d * d / 2);
            double h = high / (1 + Math.Exp(-(z - 20_000) / 1500));
            double fade = 1 / (1 + Math.Exp((z - 4000) / 1000));
            _east[i] = s * fade * Math.Cos(groundDir) + (j + h) * Math.Cos(jetDir) + 2.5 * smooth[i];
            _north[i] = s * fade * Math.Sin(groundDir) + (j + h) * Math.Sin(jetDir) + 2.5 * other[i];
        }
    }

    private void Change(Conditions day, SeededRandom random)
    {
        const double Memory = 3 * 3600;
        double keep = Math.Exp(-SliceS / Memory), add = Math.Sqrt(1 - keep * keep);
        for (int part = 0; part < 2; part++)
        {
            double[] slice = day.Law == ChangeLaw.Walk ? new double[Nodes] : Field(random, day.LengthM);
            for (int k = 0; k < Slices; k++)
            {
                double scale = day.ChangeMps * (day.Law == ChangeLaw.Trend ? k * SliceS / Memory : 1);
                for (int i = 0; i < Nodes; i++) _change[(k * Nodes + i) * 2 + part] = scale * slice[i];
                if (day.Law == ChangeLaw.Trend) continue;
                double[] fresh = Field(random, day.LengthM);
                for (int i = 0; i < Nodes; i++)
                {
                    slice[i] = day.Law == ChangeLaw.Walk
                        ? slice[i] + Math.Sqrt(SliceS / Memory) * fresh[i] : keep * slice[i] + add * fresh[i];
                }
            }
        }
    }

    /// <summary>Unit variance, correlation exp(−Δz/length).</summary>
    private static double[] Field(SeededRandom random, double lengthM)
    {
        var field = new double[Nodes];
        double keep = Math.Exp(-StepM / lengthM), add = Math.Sqrt(1 - keep * keep);
        for (int i = 0; i < Nodes; i++)
        {
            double fresh = random.NextGaussian();
            field[i] = i == 0 ? fresh : keep * field[i - 1] + add * fresh;
        }
        return field;
    }
}
