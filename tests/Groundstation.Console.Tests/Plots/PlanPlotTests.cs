using Groundstation.Console.Cells;
using Groundstation.Console.Plots;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Xunit;

namespace Groundstation.Console.Tests.Plots;

public class PlanPlotTests
{
    private static (Canvas Canvas, Frame Frame) Draw(Snapshot s, View view, int width = 80, int height = 30)
    {
        Canvas canvas = new();
        canvas.Reset(width, height);
        PlanPlot.Draw(canvas.All, s, view, new Figures(default, false), true);
        return (canvas, Frame.Fit(s, view, canvas.All, Shown.Anchor(s)!.Value));
    }

    private static (int X, int Y)? Find(Canvas canvas, char sign)
    {
        for (int y = 0; y < canvas.Height; y++)
            for (int x = 0; x < canvas.Width; x++)
                if (canvas.Glyph(x, y) == sign) return (x, y);
        return null;
    }

    [Fact]
    public void North_is_up_and_east_is_right()
    {
        Snapshot s = DemoSnapshots.Descent();
        (Canvas canvas, _) = Draw(s with { Chase = new(s.Utc, new GeoPoint(48.9, 13.1), new(400)) }, new View());
        (int X, int Y) launch = Find(canvas, '▲')!.Value, landing = Find(canvas, '◆')!.Value,
            chase = Find(canvas, '■')!.Value;
        Assert.True(landing.X > launch.X, "the landing lies east of the launch");
        Assert.True(landing.Y > launch.Y, "the landing lies south of the launch");
        Assert.True(chase.Y < launch.Y, "the chase car is north of the launch");
    }

    [Fact]
    public void Both_areas_have_the_size_the_estimate_says()
    {
        Snapshot s = DemoSnapshots.Ascent();
        (Canvas canvas, Frame frame) = Draw(s, new View { Follow = Follow.Landing, Zoom = 2 });
        (double x, _) = frame.Dot(s.Landing!.Position);
        foreach ((Ink ink, double major) in ((Ink, double)[])[(Ink.Area95, s.Landing.Area95.MajorM),
            (Ink.Area50, s.Landing.Area50.MajorM)])
        {
            int east = Enumerable.Range(0, canvas.Width).Where(c => Enumerable.Range(0, canvas.Height)
                .Any(r => canvas.InkAt(c, r) == ink && canvas.Glyph(c, r) >= '\u2800')).Max();
            // The major axis points to 081°: its east end lies sin 81° of the semi-axis away, to within a cell.
            double expected = (x + major * Math.Sin(81 * Math.PI / 180) / frame.Scale) / 2;
            Assert.InRange(east, expected - 1.5, expected + 1.5);
        }
    }

    [Fact]
    public void The_scale_bar_is_as_long_as_it_says()
    {
        (Canvas canvas, Frame frame) = Draw(DemoSnapshots.Descent(), new View());
        string row = canvas.Row(canvas.Height - 1);
        int cells = row.IndexOf('┤');
        System.Text.RegularExpressions.Match words = System.Text.RegularExpressions.Regex.Match(row, @"┤ (\d+) km");
        Assert.True(words.Success, row);
        double metres = double.Parse(words.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) * 1000;
        Assert.InRange(cells * 2 * frame.Scale, metres * 0.93, metres * 1.07);
    }

    [Fact]
    public void Zooming_in_halves_the_scale_about_and_following_keeps_the_balloon_in_the_middle()
    {
        Snapshot s = DemoSnapshots.Descent();
        (Canvas canvas, Frame near) = Draw(s, new View { Follow = Follow.Balloon, Zoom = 3 });
        (_, Frame far) = Draw(s, new View { Follow = Follow.Balloon });
        Assert.InRange(far.Scale / near.Scale, 7, 13);
        (int x, int y) = Find(canvas, '●')!.Value;
        Assert.InRange(x, 38, 41);
        Assert.InRange(y, 13, 16);
    }

    [Fact]
    public void Range_rings_carry_their_distance_from_the_launch()
    {
        (Canvas canvas, _) = Draw(DemoSnapshots.Descent(), new View());
        Assert.Contains("50 km", canvas.ToString());
        Assert.Contains("100 km", canvas.ToString());
    }

    [Fact]
    public void Old_dots_stay_where_they_are_while_the_track_grows()
    {
        Snapshot s = DemoSnapshots.Descent();
        (Canvas before, _) = Draw(s with { Track = s.Track[..^3] }, new View());
        (Canvas after, _) = Draw(s, new View());
        int changed = 0;
        for (int y = 0; y < before.Height; y++)
            for (int x = 0; x < before.Width; x++)
                if (before.Glyph(x, y) != after.Glyph(x, y)) changed++;
        Assert.InRange(changed, 0, 12);
    }
}
