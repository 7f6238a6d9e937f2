using System.Collections.Immutable;

namespace Groundstation.Core.Plan.Rules;

/// <summary>Class of an unmanned free balloon.</summary>
public enum BalloonClass
{
    /// <summary>Light.</summary>
    Light,

    /// <summary>Medium.</summary>
    Medium,

    /// <summary>Heavy.</summary>
    Heavy,
}

/// <summary>
/// Class after ICAO Annex 2, appendix on unmanned free balloons, as Regulation (EU) 923/2012 (SERA) appendix 2 carries
/// it. An aid to a decision that others take; not legal advice.
/// </summary>
/// <param name="Class">The class by all that is known.</param>
/// <param name="Sure">False: something not known could make it heavier.</param>
/// <param name="Because">The limits that made it so.</param>
/// <param name="Open">Limits that cannot be judged, with what is missing.</param>
public sealed record IcaoRules(BalloonClass Class, bool Sure, ImmutableArray<RulePoint> Because,
    ImmutableArray<RulePoint> Open)
{
    // Limits are reached to within rounding: 6 kg typed in pounds is 6 kg.
    private const double Rounding = 1e-6;

    /// <summary>Judges a payload.</summary>
    public static IcaoRules Of(Payload p)
    {
        List<RulePoint> heavy = [], open = [];
        void Judge(bool? over, string paragraph, string limit, string missing)
        {
            if (over == true) heavy.Add(new(paragraph, limit));
            else if (over is null) open.Add(new(paragraph, missing));
        }

        Judge(AtLeast(p.TotalKg, 6), "heavy (1)", "6 kg or more together", "");
        Judge(AtLeast(p.HeaviestKg, 3), "heavy (2)", "a package of 3 kg or more", "state payload.heaviest_box_kg");
        bool? two = AtLeast(p.HeaviestKg, 2), dense = p.FaceLoadKgM2 is { } load ? load > 130 * (1 + Rounding) : null;
        Judge(two == false || dense == false ? false : two == true && dense == true ? true : null, "heavy (3)",
            "a package of 2 kg or more with over 13 g a square centimetre on its smallest face",
            "a package of 2 kg or more: state payload.smallest_face_cm2");
        Judge(AtLeast(p.LineBreakN, 230), "heavy (4)", "a suspension that takes 230 N or more to part",
            "state payload.line_break_n");
        if (heavy.Count > 0) return new(BalloonClass.Heavy, true, [.. heavy], []);
        // One package of 4 kg or more is heavy by (2): medium always has two or more.
        return p.TotalKg >= 4 * (1 - Rounding)
            ? new(BalloonClass.Medium, open.Count == 0, [new("medium", "4 kg or more together, under 6 kg")], [.. open])
            : new(BalloonClass.Light, open.Count == 0, [new("light", "under 4 kg together")], [.. open]);
    }

    private static bool? AtLeast(double? value, double limit) => value is { } v ? v >= limit * (1 - Rounding) : null;
}
