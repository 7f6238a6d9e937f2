using Groundstation.Console.Cells;
using Xunit;

namespace Groundstation.Console.Tests.Plots;

public class DotsTests
{
    private static string Paint(Dots dots, int columns, int rows, bool ascii = false)
    {
        Canvas canvas = new(ascii);
        canvas.Reset(columns, rows);
        dots.Paint(canvas.All);
        return canvas.ToString();
    }

    [Theory]
    [InlineData(0, 0, "⠁")]
    [InlineData(1, 0, "⠈")]
    [InlineData(0, 3, "⡀")]
    [InlineData(1, 3, "⢀")]
    [InlineData(2, 0, " ⠁")]
    public void A_dot_lands_in_its_cell_and_corner(int x, int y, string row)
    {
        Dots dots = new(3, 2);
        dots.Set(x, y, Ink.Track);
        Assert.Equal(row + "\n", Paint(dots, 3, 2));
    }

    [Fact]
    public void Dots_outside_are_dropped()
    {
        Dots dots = new(3, 2);
        foreach ((int x, int y) in ((int, int)[])[(-1, 0), (6, 0), (0, -1), (0, 8), (int.MinValue, int.MaxValue)])
            dots.Set(x, y, Ink.Track);
        Assert.Equal("\n", Paint(dots, 3, 2));
    }

    [Fact]
    public void A_line_from_far_outside_is_cut_and_costs_no_more_than_the_field()
    {
        Dots dots = new(4, 1);
        dots.Line(-1e12, 1.5, 1e12, 1.5, Ink.Track);
        Assert.Equal("⠒⠒⠒⠒", Paint(dots, 4, 1));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_line_to_nowhere_is_left_out(double x)
    {
        Dots dots = new(4, 1);
        dots.Line(0, 0, x, 0, Ink.Track);
        Assert.Equal("", Paint(dots, 4, 1));
    }

    [Fact]
    public void The_more_important_ink_keeps_a_shared_cell()
    {
        Dots dots = new(1, 1);
        dots.Set(0, 0, Ink.Track);
        dots.Set(1, 1, Ink.Ring);
        Canvas canvas = new();
        canvas.Reset(1, 1);
        dots.Paint(canvas.All);
        Assert.Equal(Ink.Track, canvas.InkAt(0, 0));
    }

    [Fact]
    public void Ascii_tells_track_path_and_areas_apart_without_colour()
    {
        Ink[] inks = [Ink.Track, Ink.Path, Ink.Area50, Ink.Area95, Ink.Ring];
        Dots dots = new(inks.Length, 1);
        for (int i = 0; i < inks.Length; i++) dots.Set(i * 2, 0, inks[i]);
        string row = Paint(dots, inks.Length, 1, ascii: true);
        Assert.Equal(inks.Length, row.Distinct().Count());
    }
}
