using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Core;
using Xunit;

namespace Groundstation.Console.Tests.Plots;

public class HeightPlotTests
{
    private static Canvas Draw(Snapshot s, int width = 80, int height = 20)
    {
        Canvas canvas = new();
        canvas.Reset(width, height);
        HeightPlot.Draw(canvas.All, s, new Figures(default, false), true);
        return canvas;
    }

    [Fact]
    public void The_burst_is_marked_with_its_height() =>
        Assert.Contains("burst 30 000 m", Draw(DemoSnapshots.Descent()).ToString());

    [Fact]
    public void The_balloon_stands_between_the_heights_above_and_below_it()
    {
        string[] rows = Draw(DemoSnapshots.Descent(), height: 40).ToString().Split('\n');
        int Row(string text) => Array.FindIndex(rows, r => r.Contains(text, StringComparison.Ordinal));
        // 19 314 m
        Assert.InRange(Row("●"), Row(" 20 km"), Row(" 15 km"));
        Assert.True(Row("●") - Row(" 20 km") < Row(" 15 km") - Row("●"), "nearer to 20 km than to 15 km");
    }

    [Fact]
    public void What_lies_ahead_is_drawn_too_and_the_axis_tells_mission_time()
    {
        Canvas canvas = Draw(DemoSnapshots.Ascent());
        bool path = false;
        for (int y = 0; y < canvas.Height; y++)
            for (int x = 0; x < canvas.Width; x++) path |= canvas.InkAt(x, y) == Ink.Path;
        Assert.True(path);
        Assert.Contains("T+0", canvas.Row(canvas.Height - 1));
        Assert.Contains("2:00", canvas.Row(canvas.Height - 1));
    }
}
