using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>Decides which epochs reach the laptop. Mutable; belongs to one flight.</summary>
internal sealed class RadioPath(Scenario scenario)
{
    private readonly SimulatedRadio _set = scenario.Radio;
    private readonly SeededRandom _random = new(scenario.Seed, 6);
    private readonly double[] _begun = [.. scenario.Radio.Silences.Select(_ => double.NaN)];

    public Reception Judge(in TrueState truth)
    {
        bool silent = false;
        for (int i = 0; i < _begun.Length; i++)
        {
            Silence s = _set.Silences[i];
            if (double.IsNaN(_begun[i]) && Begins(s, truth))
                _begun[i] = truth.TimeS;
            silent |= truth.TimeS >= _begun[i] && (s.ForS is not { } length || truth.TimeS < _begun[i] + length);
        }

        bool faded = Fades(truth);
        if (InGap(_set, truth.TimeS))
            return Reception.NoLink;
        return silent ? Reception.Silent : faded ? Reception.Faded : Reception.Heard;
    }

    public static bool InGap(SimulatedRadio radio, double timeS)
    {
        foreach (LinkGap gap in radio.LinkGaps)
        {
            if (timeS >= gap.FromS && timeS < gap.FromS + gap.ForS)
                return true;
        }

        return false;
    }

    private static bool Begins(Silence silence, in TrueState truth) =>
        truth.TimeS >= silence.FromS
        || (truth.Phase is Phase.Ascent or Phase.Float && truth.Height.Metres >= silence.AscentAboveM)
        || (truth.Phase is Phase.Descent or Phase.Landed && truth.Height.Metres <= silence.DescentBelowM);

    // The earth's curve and what stands on it take the signal of a far payload: gone at half the height.
    private bool Fades(in TrueState truth)
    {
        if (_set.FadeBelowM is not { } below || truth.Phase is not (Phase.Descent or Phase.Landed))
            return false;
        double above = truth.Height.Metres - scenario.LandingGround.Metres;
        double lost = (below - above) / (below / 2);
        return lost > 0 && (lost >= 1 || _random.NextChance(lost));
    }
}
