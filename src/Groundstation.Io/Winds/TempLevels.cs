using System.Collections.Immutable;

namespace Groundstation.Io.Winds;

/// <summary>Reads the levels of one part of an upper-air report.</summary>
internal sealed class TempLevels(TempPart part, string file, List<RawLevel> levels, List<string> notes)
{
    private const double FeetOfPilotM = 304.8, MetresOfPilotM = 300;

    // Figures of the standard levels and their pressure, hPa: parts A and C.
    private static readonly ImmutableArray<(string Figures, int Hpa)> Lower = [("00", 1000), ("92", 925), ("85", 850),
        ("70", 700), ("50", 500), ("40", 400), ("30", 300), ("25", 250), ("20", 200), ("15", 150), ("10", 100)];

    private static readonly ImmutableArray<(string Figures, int Hpa)> Upper =
        [("70", 70), ("50", 50), ("30", 30), ("20", 20), ("10", 10), ("07", 7), ("05", 5), ("03", 3), ("02", 2), ("01",
            1)];

    private int _at;

    // Part C and D tell pressures in tenths of a hectopascal.
    private bool High => part.Name is "TTCC" or "TTDD" or "PPDD";

    /// <summary>Reads all of it.</summary>
    public void Read()
    {
        switch (part.Name)
        {
            case "TTAA" or "TTCC":
                Standard();
                break;
            case "TTBB" or "TTDD":
                Significant(winds: false);
                if (Next("21212")) Significant(winds: true);
                break;
            default:
                if (Next("21212")) Significant(winds: true);
                else ByHeight();
                break;
        }
    }

    private void Standard()
    {
        ImmutableArray<(string Figures, int Hpa)> table = High ? Upper : Lower;
        if (!High && Peek() is { Length: 5 } ground && ground.StartsWith("99", StringComparison.Ordinal))
        {
            _at++;
            double? pressure = TempGroups.SurfaceHpa(ground[2..]) * 100;
            (double? t, double? dd) = TempGroups.Air(Take("TTTDD"));
            Keep(new(pressure, null, t, dd, Wind()));
        }

        foreach ((string figures, int hpa) in table)
        {
            if (Peek() is not { Length: 5 } group || !group.StartsWith(figures, StringComparison.Ordinal)) continue;
            _at++;
            int? height = TempGroups.HeightM(hpa, group[2..]);
            (double? t, double? dd) = TempGroups.Air(Take("TTTDD"));
            Keep(new(100.0 * hpa, height, t, dd, Winds(hpa) ? Wind() : null));
        }

        // Tropopauses and strongest winds.
        while (Peek() is { Length: 5 } group && group[..2] is "88" or "77" or "66")
        {
            _at++;
            bool tropopause = group[..2] == "88";
            if (group[2..] == "999") continue;
            double? pressure = Pressure(group[2..]);
            (double? t, double? dd) = tropopause ? TempGroups.Air(Take("TTTDD")) : (null, null);
            Keep(new(pressure, null, t, dd, Wind()));
            if (!tropopause && Peek() is { Length: 5 } shear && shear[0] == '4') _at++;
        }

        Ends();
    }

    private void Significant(bool winds)
    {
        for (int expected = -1; Peek() is { Length: 5 } group && group[0] == group[1] && char.IsAsciiDigit(group[0]);)
        {
            // Levels are numbered 00 11 22 … 99 11 …, the ground 00.
            int number = group[0] - '0';
            if (expected >= 0 && number != expected)
                notes.Add($"{part.Name}: line {part.Groups[_at].Line}: levels before {group} are missing");
            _at++;
            expected = number == 9 ? 1 : number + 1;
            double? pressure = number == 0 && !High ? TempGroups.SurfaceHpa(group[2..]) * 100 : Pressure(group[2..]);
            if (winds)
            {
                Keep(new(pressure, null, null, null, Wind()));
                continue;
            }

            (double? t, double? dd) = TempGroups.Air(Take("TTTDD"));
            Keep(new(pressure, null, t, dd));
        }

        if (Peek() != "21212") Ends();
    }

    /// <summary>
    /// Winds by height, <c>9tnuuu dddff dddff dddff</c>: tens and ones of 300 m, in North and Central America (blocks
    /// 70 to 79) of 1000 ft; 8 in front for 500 m, 1 for 30 km and more.
    /// </summary>
    private void ByHeight()
    {
        bool feet = part.Station[0] == '7';
        while (Peek() is { Length: 5 } group && group[0] is '9' or '8' or '1')
        {
            _at++;
            int? tens = TempGroups.Number(group[1..2]);
            double unit = group[0] == '8' ? 500 : feet ? FeetOfPilotM : MetresOfPilotM;
            // A / after the last height stands for none; before one it is the ground's, as is 0: its height is not
            // told.
            foreach (char one in group[2..].TrimEnd('/'))
            {
                if (tens is null || !(char.IsAsciiDigit(one)
                    || one == '/')) throw Wrong(group, "heights 9tuuu expected");
                Core.Air.WindVector? wind = Wind();
                int steps = one == '/' ? 0 : (group[0] == '1' ? 100 : 0) + 10 * tens.Value + (one - '0');
                if (steps > 0) Keep(new(null, Core.Air.AtmosphereProfile.GeopotentialFromGeometric(steps * unit),
                    Wind: wind));
            }
        }

        Ends();
    }

    private bool Winds(int hpa)
    {
        if (!char.IsAsciiDigit(part.WindsUpTo)) return false;
        int last = (part.WindsUpTo - '0') * (High ? 10 : 100);
        // 0 stands for 1000 hPa, or in part C for 100; 250 counts with 200, 925 and 150 with 900 and 100.
        if (last == 0) last = High ? 100 : 1000;
        return hpa >= last;
    }

    private double? Pressure(string ppp) => TempGroups.Number(ppp) is { } p and > 0 ? p * (High ? 10.0 : 100.0) : null;

    private Core.Air.WindVector? Wind()
    {
        string group = Take("dddff");
        // 99 is a wind from all sides.
        if (group.Contains('/') || group.StartsWith("99", StringComparison.Ordinal)) return null;
        return (TempGroups.Wind(group, part.Knots) ?? throw Wrong(group, "a wind dddff expected")).Wind;
    }

    private void Keep(RawLevel level) => levels.Add(level);

    private string? Peek() => _at < part.Groups.Count ? part.Groups[_at].Text : null;

    private bool Next(string group)
    {
        if (Peek() != group) return false;
        _at++;
        return true;
    }

    private string Take(string form)
    {
        if (_at >= part.Groups.Count)
            throw Wrong("", $"it ends where {form} should follow");
        string group = part.Groups[_at].Text;
        if (group.Length != 5 || !group.All(c =>
            char.IsAsciiDigit(c) || c == '/')) throw Wrong(group, $"{form} expected");
        _at++;
        return group;
    }

    /// <summary>What follows must be one of the sections that tell nothing of winds; anything else is told.</summary>
    private void Ends()
    {
        if (Peek() is { } rest && !(rest.Length == 5 && rest[0] == rest[2] && rest[1] == rest[3] && rest[0] == rest[4])
            && rest is not ("NNNN" or "51515"))
            notes.Add($"{part.Name}: line {part.Groups[_at].Line}: nothing read from {rest} on");
    }

    private UserErrorException Wrong(string group, string what)
    {
        int line = part.Groups.Count == 0 ? part.Line : part.Groups[Math.Min(_at, part.Groups.Count - 1)].Line;
        string shown = group.Length > 0 ? group + ": " : "";
        return new($"{file}:{line}: {part.Name} of station {part.Station}: {shown}{what}; "
            + "get the report again, or take the part out");
    }
}
