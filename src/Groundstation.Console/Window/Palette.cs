using System.Globalization;
using Groundstation.Console.Cells;

namespace Groundstation.Console.Window;

/// <summary>How colours may be shown.</summary>
internal enum Colours
{
    /// <summary>Styles only.</summary>
    None,

    /// <summary>The terminal's own sixteen, which every user may have set to anything.</summary>
    Sixteen,

    /// <summary>The fixed 240 of the 256.</summary>
    Indexed,

    /// <summary>24 bits.</summary>
    True,
}

/// <summary>
/// Ink to the control sequence that sets it. Text keeps the terminal's own colours, so light and dark backgrounds both
/// work; signal colours have the same contrast on black as on white (luminance near 0.18), or bring their own background.
/// No other background is ever painted.
/// </summary>
internal sealed class Palette
{
    private static readonly Shade _white = new((255, 255, 255), 231, 7), _black = new((0, 0, 0), 16, 0),
        _red = new((176, 0, 24), 124, 1), _yellow = new((255, 200, 0), 220, 3);

    private readonly string[] _sequences;

    public Palette(Colours colours)
    {
        Colours = colours;
        _sequences = [.. Enum.GetValues<Ink>().Select(i => $"\e[{string.Join(';', Parameters(i, colours))}m")];
    }

    /// <summary>How colours may be shown.</summary>
    public Colours Colours { get; }

    /// <summary>The sequence that sets an ink, whatever was set before.</summary>
    public string Of(Ink ink) => _sequences[(int)ink];

    /// <summary>True when a blank in this ink looks different from any other blank.</summary>
    public static bool ShowsOnBlanks(Ink ink) =>
        ink is Ink.Chosen or Ink.Code or Ink.Advisory or Ink.Caution or Ink.Warning;

    /// <summary>
    /// From the environment: NO_COLOR (no-color.org) wins; 24 bits only where COLORTERM promises them, 256 where TERM
    /// does; the DEC terminals have none. Windows' own console names no TERM: where it obeys sequences at all, it has 24 bits.
    /// </summary>
    public static Colours FromEnvironment(Func<string, string?> variable, bool windows)
    {
        string term = variable("TERM") ?? "";
        if (!string.IsNullOrEmpty(variable("NO_COLOR"))) return Colours.None;
        if (variable("COLORTERM") is "truecolor" or "24bit" || (windows && term.Length == 0)) return Colours.True;
        if (term.Contains("256color", StringComparison.Ordinal)) return Colours.Indexed;
        return term.StartsWith("vt", StringComparison.Ordinal) || term.EndsWith("-m", StringComparison.Ordinal)
            || term.EndsWith("-mono", StringComparison.Ordinal) ? Colours.None : Colours.Sixteen;
    }

    /// <summary>
    /// The colour of an ink that is drawn on the terminal's own background; null: the terminal's own. Of the terminal's
    /// sixteen only magenta, light blue and, for rings, dark grey are used: green, cyan and yellow text is lost on white,
    /// blue on black.
    /// </summary>
    public static Shade? Signal(Ink ink) => ink switch
    {
        Ink.Quiet => new((117, 117, 117), 243, null),
        Ink.Ring => new((117, 117, 117), 243, 8),
        Ink.Good => new((0, 136, 40), 28, null),
        Ink.Area50 => new((0, 136, 40), 28, 12),
        Ink.Area95 => new((0, 130, 140), 30, 12),
        Ink.Path => new((190, 60, 190), 133, 5),
        Ink.Map => new((160, 105, 20), 130, null),
        Ink.Chase => new((70, 110, 240), 63, 12),
        _ => null,
    };

    private static IEnumerable<string> Parameters(Ink ink, Colours colours)
    {
        yield return "0";
        if (ink is Ink.Strong or Ink.Heading or Ink.Track or Ink.Warning or Ink.Advisory) yield return "1";
        if (ink == Ink.Advisory) yield return "4";
        if (ink == Ink.Chosen) yield return "7";
        if (colours == Colours.None)
        {
            // Most terminals are dark: reversed, the code's blocks are dark on light.
            if (ink is Ink.Code or Ink.Warning or Ink.Caution) yield return "7";
            yield break;
        }

        // Severity brings its background: readable on any terminal, in any light.
        (Shade Fore, Shade Back)? both = ink switch
        {
            Ink.Code => (_black, _white),
            Ink.Warning => (_white, _red),
            Ink.Caution => (_black, _yellow),
            _ => null,
        };
        if (both is { } b)
        {
            yield return b.Fore.Parameter(colours, background: false)!;
            yield return b.Back.Parameter(colours, background: true)!;
        }
        else if (Signal(ink)?.Parameter(colours, background: false) is { } fore)
        {
            yield return fore;
        }
    }

    /// <summary>A colour on each kind of terminal.</summary>
    /// <param name="Rgb">24 bits.</param>
    /// <param name="Index">Of the 256, above the 16 that users set.</param>
    /// <param name="Named">Of the sixteen; null: the terminal's own text.</param>
    internal readonly record struct Shade((byte Red, byte Green, byte Blue) Rgb, byte Index, byte? Named)
    {
        /// <summary>The parameter that sets it; null: none.</summary>
        public string? Parameter(Colours colours, bool background)
        {
            int layer = background ? 10 : 0;
            return colours switch
            {
                Colours.True => Say($"{38 + layer};2;{Rgb.Red};{Rgb.Green};{Rgb.Blue}"),
                Colours.Indexed => Say($"{38 + layer};5;{Index}"),
                Colours.Sixteen when Named is { } n => Say($"{(n < 8 ? 30 + n : 82 + n) + layer}"),
                _ => null,
            };
        }

        private static string Say(IFormattable text) => text.ToString(null, CultureInfo.InvariantCulture);
    }
}
