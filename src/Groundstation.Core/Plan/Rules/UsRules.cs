using System.Collections.Immutable;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Plan.Rules;

/// <summary>
/// Whether 14 CFR part 101, subpart D applies to an unmanned free balloon: 101.1(a)(4) (edition of 2019, read in
/// excerpts). An aid to a decision that others take; not legal advice.
/// </summary>
/// <param name="Subject">True: a limit is passed. False: none is. Null: what is not known decides.</param>
/// <param name="Passed">Limits passed.</param>
/// <param name="Open">Limits that cannot be judged, with what is missing.</param>
public sealed record UsRules(bool? Subject, ImmutableArray<RulePoint> Passed, ImmutableArray<RulePoint> Open)
{
    /// <summary>One ounce a square inch in kg/m².</summary>
    public const double OuncePerSquareInch = PoundKg / 16 / (InchM * InchM);

    // Limits are passed by more than rounding: 6 lb typed as 2.72155 kg is not more than 6 lb.
    private const double Rounding = 1e-6;

    /// <summary>Judges a payload.</summary>
    public static UsRules Of(Payload p)
    {
        List<RulePoint> passed = [], open = [];
        void Judge(bool? over, string paragraph, string limit, string missing)
        {
            if (over == true) passed.Add(new(paragraph, limit));
            else if (over is null) open.Add(new(paragraph, missing));
        }

        bool? over4 = Over(p.HeaviestKg, 4 * PoundKg), dense = Over(p.FaceLoadKgM2, 3 * OuncePerSquareInch);
        Judge(over4 == false || dense == false ? false : over4 == true && dense == true ? true : null, "101.1(a)(4)(i)",
            "a package over 4 lb with more than 3 oz a square inch on its smallest face",
            "a package over 4 lb: state payload.smallest_face_in2");
        Judge(Over(p.HeaviestKg, 6 * PoundKg), "101.1(a)(4)(ii)", "a package over 6 lb", "state payload.heaviest_box_lb");
        Judge(p.Packages > 1 && Over(p.TotalKg, 12 * PoundKg) == true, "101.1(a)(4)(iii)",
            "two or more packages over 12 lb together", "");
        Judge(Over(p.LineBreakN, 50 * PoundForceN), "101.1(a)(4)(iv)",
            "a suspension that takes more than 50 lbf to part", "state payload.line_break_lbf");
        return new(passed.Count > 0 ? true : open.Count > 0 ? null : false, [.. passed], [.. open]);
    }

    private static bool? Over(double? value, double limit) => value is { } v ? v > limit * (1 + Rounding) : null;
}
