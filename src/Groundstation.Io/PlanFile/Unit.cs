using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Io.PlanFile;

/// <summary>
/// A unit as the end of a key's name. Every quantity may be given in any unit of its kind: <c>mass_kg</c>,
/// <c>mass_g</c>, <c>mass_lb</c>. The name in the list of keys is the one whose unit the bounds are in.
/// </summary>
/// <param name="Suffix">End of the key's name.</param>
/// <param name="Kind">What it measures.</param>
/// <param name="Size">Its size in the kind's first unit.</param>
/// <param name="Zero">Value of its zero in the kind's first unit.</param>
internal sealed record Unit(string Suffix, string Kind, double Size, double Zero = 0)
{
    /// <summary>All units, those of one kind together.</summary>
    public static readonly Unit[] All =
    [
        new("m", "length", 1), new("cm", "length", 0.01), new("mm", "length", 0.001), new("km", "length", 1000),
        new("ft", "length", FootM), new("in", "length", InchM),
        new("kg", "mass", 1), new("g", "mass", 0.001), new("lb", "mass", PoundKg), new("oz", "mass", PoundKg / 16),
        new("mps", "speed", 1), new("mpmin", "speed", 1 / 60.0), new("kmh", "speed", 1 / 3.6),
        new("fps", "speed", FootM), new("ftpmin", "speed", FootM / 60), new("mph", "speed", MileM / 3600),
        new("kt", "speed", KnotMps),
        new("m2", "area", 1), new("cm2", "area", 1e-4), new("ft2", "area", FootM * FootM),
        new("in2", "area", InchM * InchM),
        new("m3", "volume", 1), new("l", "volume", 0.001), new("ft3", "volume", FootM * FootM * FootM),
        new("pa", "pressure", 1), new("hpa", "pressure", 100), new("kpa", "pressure", 1000),
        new("bar", "pressure", 1e5),
        new("mpa", "pressure", 1e6), new("psi", "pressure", PoundForceN / (InchM * InchM)),
        new("inhg", "pressure", InchOfMercuryPa),
        new("c", "temperature", 1), new("k", "temperature", 1, -273.15), new("f", "temperature", 5 / 9.0, -160 / 9.0),
        new("n", "force", 1), new("lbf", "force", PoundForceN),
        new("m3ps", "flow", 1), new("lpm", "flow", 0.001 / 60), new("m3ph", "flow", 1 / 3600.0),
        new("ft3pm", "flow", FootM * FootM * FootM / 60), new("ft3ph", "flow", FootM * FootM * FootM / 3600),
    ];

    /// <summary>
    /// The unit in which a key is given: its own when the names are the same, another of the kind when only the end
    /// differs. Null: it is another key.
    /// </summary>
    /// <param name="given">The name as it stands in the file.</param>
    /// <param name="known">The name in the list of keys.</param>
    public static (Unit Given, Unit Own)? Match(string given, string known)
    {
        int cut = known.LastIndexOf('_') + 1;
        if (cut == 0 || given.Length <= cut || string.CompareOrdinal(given, 0, known, 0, cut) != 0) return null;
        Unit? own = All.FirstOrDefault(u => u.Suffix == known[cut..]);
        Unit? other = All.FirstOrDefault(u => u.Suffix == given[cut..] && u.Kind == own?.Kind);
        return own is null || other is null ? null : (other, own);
    }

    /// <summary>A value of this unit in another of the same kind. In its own it stays the very same number.</summary>
    public double In(Unit other, double value) =>
        this == other ? value : (value * Size + Zero - other.Zero) / other.Size;
}
