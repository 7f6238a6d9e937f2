using System.Globalization;
using Groundstation.Io.Desk;
using Groundstation.Io.Folders;

namespace Groundstation.Io.Faults;

/// <summary>The keys of one fault, as they stand in a file or are typed by an instructor.</summary>
internal sealed class FaultKeys
{
    /// <summary>All keys.</summary>
    public static readonly string[] Names = ["kind", "from", "ascent_above_m", "descent_below_m", "for_s", "source",
        "share", "limit_m", "every_s", "by_m", "days"];

    /// <summary>All kinds, as words.</summary>
    public static readonly string[] Kinds = [.. Enum.GetValues<FaultKind>().Select(k => Cells.Word(k))];

    private FaultKind? _kind;
    private (FaultBegin By, double From)? _begin;
    private Fault _fault = new(FaultKind.Silence, FaultBegin.Recording, 0);

    /// <summary>Takes a key's value; says what is allowed when that is something else.</summary>
    public string? Take(string name, string value)
    {
        switch (name)
        {
            case "kind":
                int kind = Array.IndexOf(Kinds, value);
                _kind = kind < 0 ? null : (FaultKind)kind;
                return kind < 0 ? "one of " + string.Join(", ", Kinds) : null;
            case "from":
                _begin = SeekTarget.Read(value) switch
                {
                    { Kind: SeekKind.Mission } t => (FaultBegin.Mission, t.Time.TotalSeconds),
                    { Kind: SeekKind.TimeOfDay } t => (FaultBegin.TimeOfDay, t.Time.TotalSeconds),
                    { Kind: SeekKind.By, Time.Ticks: >= 0 } t => (FaultBegin.Recording, t.Time.TotalSeconds),
                    _ => null,
                };
                return _begin is null
                    ? "\"T+1:10:00\" since launch, \"10:58:18\" UTC, or \"+600\" s since the recording began" : null;
            case "ascent_above_m":
                return Number(value, 0, 60_000, v => _begin = (FaultBegin.AscentAbove, v));
            case "descent_below_m":
                return Number(value, 0, 60_000, v => _begin = (FaultBegin.DescentBelow, v));
            case "for_s":
                return Number(value, 1, 604_800, v => _fault = _fault with { ForS = v });
            case "source":
                _fault = _fault with { Source = value };
                return value.Length is > 0 and <= 15 && value.All(char.IsAsciiLetterOrDigit)
                    ? null : "a source's name, such as \"radio1\"";
            case "share":
                return Number(value, 0, 1, v => _fault = _fault with { Share = v });
            case "limit_m":
                return Number(value, 0, 60_000, v => _fault = _fault with { LimitM = v });
            case "every_s":
                return Number(value, 5, 3600, v => _fault = _fault with { EveryS = v });
            case "by_m":
                return Number(value, 10, 1_000_000, v => _fault = _fault with { ByM = v });
            default:
                return Number(value, -20_000, 20_000, v => _fault = _fault with { Days = (int)v });
        }
    }

    /// <summary>The fault; null and what is missing when it is not whole.</summary>
    public (Fault? Fault, string Missing) Fault() => (_kind, _begin) switch
    {
        (null, _) => (null, "kind missing: one of " + string.Join(", ", Kinds)),
        (_, null) => (null, "when it begins is missing: from, ascent_above_m or descent_below_m"),
        ({ } kind, { } begin) => (_fault with { Kind = kind, Begin = begin.By, From = begin.From }, ""),
    };

    /// <summary>The line that says when a fault begins.</summary>
    public static string Beginning(Fault f) => f.Begin switch
    {
        FaultBegin.Mission => $"from = \"T{(f.From < 0 ? '-' : '+')}{Clock(Math.Abs(f.From))}\"",
        FaultBegin.TimeOfDay => $"from = \"{Clock(f.From)}\"",
        FaultBegin.AscentAbove => string.Create(CultureInfo.InvariantCulture, $"ascent_above_m = {f.From:0.#}"),
        FaultBegin.DescentBelow => string.Create(CultureInfo.InvariantCulture, $"descent_below_m = {f.From:0.#}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"from = \"+{f.From:0.###}\""),
    };

    private static string Clock(double seconds)
    {
        var time = TimeSpan.FromSeconds(seconds);
        return string.Create(CultureInfo.InvariantCulture, $@"{(int)time.TotalHours}:{time:mm\:ss\.fff}");
    }

    private static string? Number(string text, double min, double max, Action<double> set)
    {
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            || !(value >= min && value <= max))
            return string.Create(CultureInfo.InvariantCulture, $"a number from {min} to {max}");
        set(value);
        return null;
    }
}
