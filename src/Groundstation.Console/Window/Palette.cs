using Groundstation.Console.Cells;
using Terminal.Gui.Drawing;
using Attribute = Terminal.Gui.Drawing.Attribute;
using Color = Terminal.Gui.Drawing.Color;

namespace Groundstation.Console.Window;

/// <summary>How colours may be shown.</summary>
internal enum Colours
{
    /// <summary>NO_COLOR: styles only.</summary>
    None,

    /// <summary>The terminal's sixteen.</summary>
    Sixteen,

    /// <summary>24 bits.</summary>
    True,
}

/// <summary>
/// Ink to terminal attribute. Text keeps the terminal's own colours, so light and dark backgrounds both work; signal
/// colours have the same contrast on black as on white (luminance near 0.18), or bring their own background.
/// </summary>
internal sealed class Palette
{
    private readonly Attribute[] _attributes;

    public Palette(Colours colours)
    {
        Colours = colours;
        _attributes = [.. Enum.GetValues<Ink>().Select(i => Make(i, colours))];
    }

    /// <summary>How colours may be shown.</summary>
    public Colours Colours { get; }

    /// <summary>The attribute of an ink.</summary>
    public Attribute Of(Ink ink) => _attributes[(int)ink];

    /// <summary>
    /// From the environment: NO_COLOR (no-color.org) wins, 24 bits only where COLORTERM promises them.
    /// </summary>
    public static Colours FromEnvironment(Func<string, string?> variable)
    {
        if (!string.IsNullOrEmpty(variable("NO_COLOR"))) return Colours.None;
        return variable("COLORTERM") is "truecolor" or "24bit" ? Colours.True : Colours.Sixteen;
    }

    /// <summary>
    /// The 24-bit colour of an ink that is drawn on the terminal's own background; null: the terminal's own.
    /// </summary>
    public static (byte Red, byte Green, byte Blue)? Signal(Ink ink) => ink switch
    {
        Ink.Quiet or Ink.Ring => (117, 117, 117),
        Ink.Good => (0, 136, 40),
        Ink.Area95 => (0, 130, 140),
        Ink.Area50 => (0, 136, 40),
        Ink.Path => (190, 60, 190),
        Ink.Map => (160, 105, 20),
        Ink.Chase => (70, 110, 240),
        _ => null,
    };

    private static Attribute Make(Ink ink, Colours colours)
    {
        TextStyle style = ink switch
        {
            Ink.Strong or Ink.Heading or Ink.Caution or Ink.Track => TextStyle.Bold,
            Ink.Warning => TextStyle.Bold,
            Ink.Chosen => TextStyle.Reverse,
            _ => TextStyle.None,
        };
        if (colours == Colours.None)
        {
            // Without colours most terminals are dark: reversed, the code's blocks are dark on light.
            if (ink == Ink.Code) style = TextStyle.Reverse;
            if (ink is Ink.Warning or Ink.Caution) style |= TextStyle.Reverse;
            if (ink == Ink.Advisory) style |= TextStyle.Underline;
            return new Attribute(Color.None, Color.None, style);
        }

        if (ink == Ink.Code) return new Attribute(Black(colours), White(colours), TextStyle.None);
        // Severity brings its background: readable on any terminal, in any light.
        if (ink == Ink.Warning) return new Attribute(White(colours), Red(colours), style);
        if (ink == Ink.Caution) return new Attribute(Black(colours), Yellow(colours), TextStyle.None);
        if (ink == Ink.Advisory) return new Attribute(Color.None, Color.None, TextStyle.Bold | TextStyle.Underline);
        Color fore = Color.None;
        if (colours == Colours.True && Signal(ink) is { } rgb) fore = new Color(rgb.Red, rgb.Green, rgb.Blue);
        if (colours == Colours.Sixteen && Named(ink) is { } name) fore = new Color(name);
        return new Attribute(fore, Color.None, style);
    }

    private static ColorName16? Named(Ink ink) => ink switch
    {
        Ink.Ring => ColorName16.DarkGray,
        Ink.Good or Ink.Area50 => ColorName16.Green,
        Ink.Area95 => ColorName16.Cyan,
        Ink.Path => ColorName16.Magenta,
        Ink.Map => ColorName16.Yellow,
        Ink.Chase => ColorName16.BrightBlue,
        _ => null,
    };

    private static Color White(Colours c) => c == Colours.True ? new Color(255, 255, 255)
        : new Color(ColorName16.White);

    private static Color Black(Colours c) => c == Colours.True ? new Color(0, 0, 0) : new Color(ColorName16.Black);

    private static Color Red(Colours c) => c == Colours.True ? new Color(176, 0, 24) : new Color(ColorName16.Red);

    private static Color Yellow(Colours c) => c == Colours.True ? new Color(255, 200, 0)
        : new Color(ColorName16.Yellow);
}
