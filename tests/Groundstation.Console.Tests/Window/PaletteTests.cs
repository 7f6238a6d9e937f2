using Groundstation.Console.Cells;
using Groundstation.Console.Window;
using Terminal.Gui.Drawing;
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
            double l = 0.2126 * Linear(c.Red) + 0.7152 * Linear(c.Green) + 0.0722 * Linear(c.Blue);
            // WCAG 2 contrast ratio; 4.58 is the most that any colour can have against both at once.
            Assert.True((l + 0.05) / 0.05 >= 4 && 1.05 / (l + 0.05) >= 4, $"{ink}: luminance {l:F3}");
        }

        static double Linear(byte v) => v / 255.0 is var s && s <= 0.04045 ? s / 12.92
            : Math.Pow((s + 0.055) / 1.055, 2.4);
    }

    [Theory]
    [InlineData(null, null, Colours.Sixteen)]
    [InlineData(null, "truecolor", Colours.True)]
    [InlineData(null, "24bit", Colours.True)]
    [InlineData("1", "truecolor", Colours.None)]
    [InlineData("", "yes", Colours.Sixteen)]
    internal void Colours_follow_the_environment(string? noColor, string? colorTerm, Colours expected) =>
        Assert.Equal(expected,
        Palette.FromEnvironment(name => name == "NO_COLOR" ? noColor : name == "COLORTERM" ? colorTerm : null));

    [Fact]
    public void Without_colour_severities_still_look_different_from_text()
    {
        Palette palette = new(Colours.None);
        foreach (Ink ink in Enum.GetValues<Ink>())
        {
            Assert.Equal(Color.None, palette.Of(ink).Foreground);
            Assert.Equal(Color.None, palette.Of(ink).Background);
        }

        Assert.NotEqual(palette.Of(Ink.Plain).Style, palette.Of(Ink.Warning).Style);
        Assert.NotEqual(palette.Of(Ink.Plain).Style, palette.Of(Ink.Caution).Style);
        Assert.NotEqual(palette.Of(Ink.Plain).Style, palette.Of(Ink.Advisory).Style);
    }
}
