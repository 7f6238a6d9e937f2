using Groundstation.Console.Cells;
using Groundstation.Console.Window;
using Xunit;

namespace Groundstation.Console.Tests.Window;

public class PaletteTests
{
    [Fact]
    public void Signal_colours_have_the_contrast_of_large_text_on_black_and_on_white()
    {
        foreach (Ink ink in Enum.GetValues<Ink>())
        {
            if (Palette.Signal(ink) is not { } c) continue;
            foreach ((byte Red, byte Green, byte Blue) in (IEnumerable<(byte, byte, byte)>)[c.Rgb, Cube(c.Index)])
            {
                double l = 0.2126 * Linear(Red) + 0.7152 * Linear(Green) + 0.0722 * Linear(Blue);
                // WCAG 2 contrast ratio; 4.58 is the most that any colour can have against both at once.
                Assert.True((l + 0.05) / 0.05 >= 4 && 1.05 / (l + 0.05) >= 4, $"{ink}: luminance {l:F3}");
            }
        }

        // The 256: a cube of six steps a colour, then 24 greys.
        static (byte, byte, byte) Cube(int index) => index >= 232
            ? ((byte)(8 + 10 * (index - 232)), (byte)(8 + 10 * (index - 232)), (byte)(8 + 10 * (index - 232)))
            : (Step((index - 16) / 36), Step((index - 16) / 6 % 6), Step((index - 16) % 6));

        static byte Step(int step) => (byte)(step == 0 ? 0 : 55 + 40 * step);

        static double Linear(byte v) => v / 255.0 is var s && s <= 0.04045 ? s / 12.92
            : Math.Pow((s + 0.055) / 1.055, 2.4);
    }

    [Theory]
    [InlineData("xterm", null, null, Colours.Sixteen)]
    [InlineData("linux", null, null, Colours.Sixteen)]
    [InlineData("xterm-256color", null, null, Colours.Indexed)]
    [InlineData("xterm-256color", null, "truecolor", Colours.True)]
    [InlineData("xterm", null, "24bit", Colours.True)]
    [InlineData("xterm-256color", "1", "truecolor", Colours.None)]
    [InlineData("vt100", null, null, Colours.None)]
    [InlineData("xterm", "", "yes", Colours.Sixteen)]
    [InlineData(null, null, null, Colours.Sixteen)]
    [InlineData(null, null, null, Colours.True, true)]
    [InlineData(null, "1", null, Colours.None, true)]
    [InlineData("xterm-256color", null, null, Colours.Indexed, true)]
    internal void Colours_follow_the_environment(string? term, string? noColor, string? colorTerm, Colours expected,
        bool windows = false) =>
        Assert.Equal(expected, Palette.FromEnvironment(name => name switch
        {
            "TERM" => term,
            "NO_COLOR" => noColor,
            "COLORTERM" => colorTerm,
            _ => null,
        }, windows));

    [Fact]
    public void Without_colour_severities_still_look_different_from_text()
    {
        Palette palette = new(Colours.None);
        foreach (Ink ink in Enum.GetValues<Ink>()) Assert.Matches(@"^\e\[0(;[147])*m$", palette.Of(ink));
        Assert.Equal("\e[0m", palette.Of(Ink.Plain));
        foreach (Ink ink in (Ink[])[Ink.Warning, Ink.Caution, Ink.Advisory])
            Assert.NotEqual(palette.Of(Ink.Plain), palette.Of(ink));
    }

    [Theory]
    [InlineData(Colours.Sixteen)]
    [InlineData(Colours.Indexed)]
    [InlineData(Colours.True)]
    internal void A_background_is_painted_only_under_a_severity_and_a_code(Colours colours)
    {
        Palette palette = new(colours);
        foreach (Ink ink in Enum.GetValues<Ink>())
        {
            string back = colours == Colours.Sixteen ? @";4[0-7]m" : ";48;[25];";
            bool paints = System.Text.RegularExpressions.Regex.IsMatch(palette.Of(ink), back);
            Assert.Equal(ink is Ink.Warning or Ink.Caution or Ink.Code, paints);
        }
    }

    [Fact]
    public void Of_the_sixteen_only_those_are_used_that_can_be_read_on_black_and_on_white()
    {
        Palette palette = new(Colours.Sixteen);
        foreach (Ink ink in Enum.GetValues<Ink>())
        {
            if (ink is Ink.Warning or Ink.Caution or Ink.Code) continue;
            // Magenta, dark grey (rings only), light blue.
            Assert.Matches(ink == Ink.Ring ? @"^\e\[0;90m$" : @"^\e\[0(;[147])*(;35|;94)?m$", palette.Of(ink));
        }
    }
}
