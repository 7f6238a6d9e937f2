using Groundstation.Console.Cells;
using Xunit;

namespace Groundstation.Console.Tests.Cells;

public class CanvasTests
{
    private static Canvas Sheet(int width, int height, bool ascii = false)
    {
        Canvas canvas = new(ascii);
        canvas.Reset(width, height);
        return canvas;
    }

    [Fact]
    public void Nothing_but_printable_one_cell_characters_gets_onto_the_canvas()
    {
        Canvas canvas = Sheet(1, 1);
        for (int c = 0; c <= char.MaxValue; c++)
        {
            canvas.Put(0, 0, (char)c, Ink.Plain);
            char shown = canvas.Glyph(0, 0);
            bool harmless = shown is >= ' ' and <= '~' || (!char.IsControl(shown) && !char.IsSurrogate(shown)
                && char.GetUnicodeCategory(shown) is not (System.Globalization.UnicodeCategory.Format
                    or System.Globalization.UnicodeCategory.NonSpacingMark
                    or System.Globalization.UnicodeCategory.EnclosingMark
                    or System.Globalization.UnicodeCategory.LineSeparator
                    or System.Globalization.UnicodeCategory.ParagraphSeparator));
            Assert.True(harmless, $"U+{c:X4} became U+{(int)shown:X4}");
        }
    }

    [Theory]
    [InlineData('\u001b')]
    [InlineData('\u009b')]
    [InlineData('\u0007')]
    [InlineData('\u202e')]
    [InlineData('\u200b')]
    [InlineData('\u00ad')]
    [InlineData('\u4e2d')]
    [InlineData('\uff21')]
    public void Escapes_direction_marks_and_wide_characters_become_question_marks(char c)
    {
        Canvas canvas = Sheet(3, 1);
        canvas.All.Text(0, 0, $"a{c}b");
        Assert.Equal("a?b", canvas.Row(0));
    }

    [Fact]
    public void In_ascii_every_character_is_ascii()
    {
        Canvas canvas = Sheet(1, 1, ascii: true);
        for (int c = 0; c <= char.MaxValue; c++)
        {
            canvas.Put(0, 0, (char)c, Ink.Plain);
            Assert.InRange(canvas.Glyph(0, 0), ' ', '~');
        }
    }

    [Fact]
    public void A_web_address_is_broken_even_when_two_texts_make_it()
    {
        Canvas canvas = Sheet(20, 1);
        canvas.All.Text(0, 0, "https:");
        canvas.All.Text(6, 0, "//example");
        Assert.DoesNotContain("://", canvas.Row(0));
        Assert.Contains("example", canvas.Row(0));
    }

    [Fact]
    public void What_does_not_fit_ends_in_an_ellipsis_and_stays_in_its_pane()
    {
        Canvas canvas = Sheet(10, 1);
        canvas.All.Part(2, 0, 5, 1).Text(0, 0, "landing estimate");
        Assert.Equal("  land…   ", canvas.Row(0));
    }

    [Fact]
    public void Writing_outside_does_nothing()
    {
        Canvas canvas = Sheet(3, 2);
        canvas.Put(-1, 0, 'x', Ink.Plain);
        canvas.Put(3, 0, 'x', Ink.Plain);
        canvas.Put(0, 2, 'x', Ink.Plain);
        canvas.All.Part(2, 1, 9, 9).Text(0, 5, "x");
        Assert.Equal("\n", canvas.ToString());
    }

    [Fact]
    public void Running_text_breaks_at_blanks_and_loses_no_word()
    {
        Canvas canvas = Sheet(12, 5);
        int rows = canvas.All.Wrap(0, 0, "Keep the receiver on and the antenna high.");
        Assert.Equal(5, rows);
        Assert.Equal("Keep the receiver on and the antenna high.",
            string.Join(' ', canvas.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries)));
    }
}
