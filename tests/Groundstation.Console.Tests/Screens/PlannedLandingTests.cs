using Groundstation.Console.Cells;
using Groundstation.Console.Commands;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.PlanFile;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>The console before anything is heard, with the bundled plan.</summary>
public class PlannedLandingTests
{
    private static Snapshot Waiting()
    {
        FlightPlan plan = PlanReader.Read(BundledFlights.File("clean", "plan.toml"));
        Station station = new(plan, new NoLog());
        station.Tick(Instant.FromUtc(new DateOnly(2027, 5, 8), new TimeSpan(7, 0, 0)));
        return station.Snapshot();
    }

    [Theory]
    [InlineData(80, 24)]
    [InlineData(160, 48)]
    public void The_planned_landing_is_on_every_screen_that_asks_where_and_marked_as_planned(int width, int height)
    {
        Snapshot s = Waiting();
        LandingEstimate landing = s.Landing!;
        foreach (ScreenId screen in (ScreenId[])[ScreenId.Flight, ScreenId.Where, ScreenId.Land])
        {
            Canvas canvas = new(false);
            canvas.Reset(width, height);
            Painter.Paint(canvas, s, new FeedStatus(), new View { Screen = screen });
            string text = canvas.ToString();
            Assert.Contains(Figures.Place(landing.Position), text);
            Assert.Contains("planned", text);
            string area = new Figures(s.Plan.Units, false).Axes(landing.Area95.MajorM, landing.Area95.MinorM);
            if (screen != ScreenId.Where || width > 110) Assert.Contains("±" + area, text);
            if (screen == ScreenId.Where) Assert.Contains("planned landing", text);
        }
    }
}
