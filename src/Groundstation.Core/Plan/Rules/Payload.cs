namespace Groundstation.Core.Plan.Rules;

/// <summary>The payload as rules on unmanned free balloons look at it. Null is not known.</summary>
/// <param name="TotalKg">All packages together, kg.</param>
/// <param name="Packages">How many.</param>
/// <param name="HeaviestKg">The heaviest package, kg.</param>
/// <param name="SmallestFaceM2">Area of its smallest face, m².</param>
/// <param name="LineBreakN">Impact force that parts the suspension, N.</param>
public sealed record Payload(double TotalKg, int Packages, double? HeaviestKg, double? SmallestFaceM2,
    double? LineBreakN)
{
    /// <summary>
    /// The plan's. Where boxes are not stated, all that hangs under the balloon counts: to the safe side.
    /// </summary>
    public static Payload Of(FlightPlan plan)
    {
        LoadPlan load = plan.Load;
        double total = load.BoxesKg ?? plan.DescentMassKg;
        return new(total, load.Packages, load.HeaviestKg ?? (load.Packages == 1 ? total : null), load.SmallestFaceM2,
            load.LineBreakN);
    }

    /// <summary>Mass of the heaviest package over the area of its smallest face, kg/m².</summary>
    public double? FaceLoadKgM2 => HeaviestKg / SmallestFaceM2;
}

/// <summary>A limit of a rule that is passed, or that cannot be judged.</summary>
/// <param name="Paragraph">Where it stands.</param>
/// <param name="Text">What it says, with its figure.</param>
public sealed record RulePoint(string Paragraph, string Text);
