using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Core.Callouts;

/// <summary>Figures of a callout as phrases, in the plan's units, bearings and coordinates.</summary>
internal sealed class Wording(FlightPlan plan)
{
    private readonly bool _customary = plan.Units == DisplayUnits.Customary;

    /// <summary>Who calls whom.</summary>
    public Phrase Names => new Phrase(plan.Callouts.To, Said(plan.Callouts.To)).Then(
        new(plan.Callouts.From, Said(plan.Callouts.From)));

    /// <summary>Who calls whom, and when.</summary>
    public Phrase Call(Instant utc)
    {
        DateTime t = utc.ToDateTime();
        string clock = t.ToString("HHmm", CultureInfo.InvariantCulture);
        return Names.Then(new(Text($"{t:HH:mm} UTC"), Radiotelephony.Spell(clock) + " Zulu"));
    }

    /// <summary>Time of day, UTC.</summary>
    public static Phrase Clock(Instant utc)
    {
        DateTime t = utc.ToDateTime();
        return new(Text($"{t:HH:mm} UTC"), Radiotelephony.Spell(Text($"{t:HHmm}")));
    }

    /// <summary>A length of time: tens of seconds up to a minute and a half, then minutes.</summary>
    public static Phrase Span(double seconds)
    {
        long tens = (long)Math.Round(seconds / 10) * 10, minutes = (long)Math.Round(seconds / 60);
        return seconds < 90 ? new(Text($"{tens} s"), Radiotelephony.Number(tens) + " seconds")
            : new(Text($"{minutes} min"), Radiotelephony.Number(minutes) + " minutes");
    }

    /// <summary>A distance: two or three figures, as much as a map and a driver can use.</summary>
    public Phrase Distance(double metres)
    {
        if (!_customary && metres < 995) return Whole(Math.Round(metres / 10) * 10, "m", "metres");
        if (_customary && metres < 0.2 * MileM)
            return Whole(Math.Round(metres / FootM / 50) * 50, "ft", "feet");
        double value = _customary ? metres / MileM : metres / 1000;
        (string shown, string spoken) = _customary ? ("mi", "miles") : ("km", "kilometres");
        return value >= 9.95 ? Whole(value, shown, spoken)
            : new(Text($"{value:F1} {shown}"), $"{Tenths(value)} {spoken}");
    }

    /// <summary>A height above mean sea level: hundreds, below a thousand tens.</summary>
    public Phrase Height(HeightMsl height)
    {
        double value = _customary ? height.Metres / FootM : height.Metres;
        double step = Math.Abs(value) < 1000 ? 10 : 100;
        return Whole(Math.Round(value / step) * step, _customary ? "ft" : "m", _customary ? "feet" : "metres");
    }

    /// <summary>A vertical rate without its sign.</summary>
    public Phrase Rate(double mps) => _customary
        ? Whole(Math.Round(Math.Abs(mps) / FootM * 6) * 10, "ft/min", "feet per minute")
        : new(Text($"{Math.Abs(mps):F1} m/s"), Tenths(Math.Abs(mps)) + " metres per second");

    /// <summary>
    /// A direction at a place, from true or magnetic north as planned; true, and called so, where the magnetic model
    /// has run out. North is 360, as on the radio.
    /// </summary>
    public Phrase Bearing(double trueDeg, GeoPoint at, Instant utc)
    {
        double? east = plan.Callouts.MagneticBearings ? MagneticModel.DeclinationDeg(at, utc) : null;
        long whole = (long)Math.Round(trueDeg - (east ?? 0));
        string digits = Text($"{((whole % 360) + 359) % 360 + 1:000}");
        string kind = east is null ? "true" : "magnetic";
        return new($"{digits}° {kind}", $"{Radiotelephony.Spell(digits)} {kind}");
    }

    /// <summary>A place in the plan's coordinates, no finer than somebody who searches can use.</summary>
    public Phrase Place(GeoPoint at, double stepM) => Place(at, plan.Callouts.Coordinates, stepM);

    /// <summary>A place in given coordinates.</summary>
    public static Phrase Place(GeoPoint at, CoordinateFormat format, double stepM)
    {
        string shown = CoordinateText.Write(at, format, stepM);
        string[] groups = shown.Split(' ');
        return new(shown, format switch
        {
            CoordinateFormat.Utm => string.Join(", ",
                [(groups[0] == "UPS" ? "polar" : Radiotelephony.Spell(groups[0])) + " " + groups[1],
                    .. groups[2..].Select(Radiotelephony.Spell)]),
            CoordinateFormat.Mgrs => string.Join(", ", groups.Select(Radiotelephony.Spell)),
            CoordinateFormat.Maidenhead => Radiotelephony.Spell(shown),
            _ => string.Join(", ", groups.Select(Angle)),
        });
    }

    /// <summary>How large an area is: a radius where it is nearly round, else both half axes.</summary>
    public Phrase Size(SearchArea area)
    {
        if (area.MajorM < 1.5 * area.MinorM) return "within" + Distance(area.MajorM);
        Phrase major = Distance(area.MajorM);
        // Both in the unit of the larger one, which is then said once.
        int unit = major.Shown.LastIndexOf(' '), said = major.Spoken.LastIndexOf(' ');
        double divisor = major.Shown[unit..] switch
        {
            " km" => 1000,
            " mi" => MileM,
            " ft" => FootM,
            _ => 1,
        };
        double step = divisor < 10 ? 10 : area.MajorM / divisor >= 9.95 ? 1 : 0.1;
        double minor = Math.Max(1, Math.Round(area.MinorM / divisor / step)) * step;
        (string unitShown, string unitSaid) = (major.Shown[(unit + 1)..], major.Spoken[(said + 1)..]);
        Phrase other = step >= 1 ? Whole(minor, unitShown, unitSaid)
            : new(Text($"{minor:F1} {unitShown}"), $"{Tenths(minor)} {unitSaid}");
        return new Phrase(major.Shown[..unit], major.Spoken[..said]) + "by" + other;
    }

    /// <summary>
    /// What an area means to who searches it, by its larger half axis: up to 500 m it is walked, to 2 km searched in an
    /// hour or two, to 8 km driven through; above that the place is little more than a direction.
    /// </summary>
    public static string Confidence(SearchArea area) => area.MajorM switch
    {
        <= 500 => "high",
        <= 2000 => "good",
        <= 8000 => "fair",
        _ => "low",
    };

    /// <summary>Letters of eight points as a word.</summary>
    public static string Towards(double trueDeg)
    {
        ReadOnlySpan<string> points =
            ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
        return points[(int)Math.Round(((trueDeg % 360) + 360) % 360 / 45) % 8];
    }

    /// <summary>A name, or a text of ours with figures in it, such as a cause, as it is said.</summary>
    public static string Said(string text) => string.Join(' ', text.Split(' ').Select(written =>
    {
        string word = written.TrimEnd(',', '.');
        return word switch
        {
            "km" => "kilometres",
            "m" => "metres",
            "m/s" => "metres per second",
            "kft" => "thousand feet",
            "%" => "percent",
            [>= '0' and <= '9', ..] => Radiotelephony.Spell(word),
            _ => word,
        } + written[word.Length..];
    }));

    private static string Angle(string group)
    {
        int end = group.IndexOfAny(['°', '.']);
        string degrees = group[..end].TrimStart('0') is { Length: > 0 } some ? some : "0";
        string side = group[^1] switch { 'N' => "north", 'S' => "south", 'E' => "east", _ => "west" };
        string rest = group[end..^1].Replace("°", " ° ", StringComparison.Ordinal);
        // The last unit needs no word: the side ends the number.
        string said = string.Join(' ', rest.TrimEnd('\'', '"').Replace("'", " ' ", StringComparison.Ordinal)
            .Split(' ', StringSplitOptions.RemoveEmptyEntries)
            .Select(part => part switch { "°" => "degrees", "'" => "minutes", _ => Radiotelephony.Spell(part) }));
        return $"{Radiotelephony.Spell(degrees)} {said} {side}";
    }

    private static Phrase Whole(double value, string unit, string spokenUnit)
    {
        long whole = (long)Math.Round(value);
        return new(Text($"{whole} {unit}"), $"{Radiotelephony.Number(whole)} {spokenUnit}");
    }

    private static string Tenths(double value) => Radiotelephony.Spell(Text($"{value:F1}"));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
