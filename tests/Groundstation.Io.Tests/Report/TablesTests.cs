using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Io.Report;
using Xunit;

namespace Groundstation.Io.Tests.Report;

/// <summary>Tables and scores against what the flight was made from.</summary>
public sealed class TablesTests
{
    [Fact]
    public void By_time_joins_place_wind_and_air()
    {
        string[][] rows = Rows(to =>
            TimeTable.Write(to, ReportedFlight.Clean, new FlightFigures(ReportedFlight.Clean)));
        int At(string column) => Array.IndexOf(rows[0], column);
        Assert.Equal(ReportedFlight.Clean.Epochs.Length + 1, rows.Length);
        string[] row = rows.First(r => r[At("phase")] == "ascent" && double.Parse(r[At("altitude_m")],
            CultureInfo.InvariantCulture) > 10_000);
        string[] truth = File.ReadLines(Path.Combine(Bundled.Path("clean"), "truth.csv"))
            .First(l => l.Contains(row[At("utc")], StringComparison.Ordinal)).Split(',');
        double Of(string[] from, int column) => double.Parse(from[column], CultureInfo.InvariantCulture);
        Assert.Equal(Of(truth, 5), Of(row, At("vertical_rate_mps")), 1.0);
        (double east, double north) = (Of(truth, 6), Of(truth, 7));
        Assert.Equal(Math.Sqrt(east * east + north * north), Of(row, At("wind_mps")), 2.5);
        Assert.Equal("", rows[1][At("wind_mps")]);
        // The 1976 atmosphere at 10 km: 26 436 Pa, −49.9 °C.
        Assert.Equal(26_436, Of(row, At("pressure_pa")), 1500.0);
        Assert.Equal(-49.9, Of(row, At("temperature_outside_c")), 6.0);
    }

    [Fact]
    public void A_sounding_has_the_archives_fields_and_units()
    {
        FlightRecord clean = ReportedFlight.Clean;
        string[][] rows = Rows(to => Sounding.Write(to, clean, new FlightFigures(clean), WindBasis.Ascent));
        Assert.Equal(13, rows[0].Length);
        Assert.Equal("LVLTYP1", rows[0][0]);
        Assert.True(rows.Length > 50);
        string[] level = rows.Skip(1).First(r => int.Parse(r[5], CultureInfo.InvariantCulture) >= 10_000);
        Assert.Equal("2", level[0]);
        Assert.InRange(int.Parse(level[3], CultureInfo.InvariantCulture), 25_000, 28_000);    // Pa
        Assert.InRange(int.Parse(level[7], CultureInfo.InvariantCulture), -560, -440);        // tenths of °C
        Assert.Equal("-9999", level[9]);                                                     // no humidity sensor
        Assert.InRange(int.Parse(level[11], CultureInfo.InvariantCulture), 1, 360);
        // Thirty minutes and some after launch, as MMMSS.
        Assert.InRange(int.Parse(level[2], CultureInfo.InvariantCulture), 2500, 3500);
        Assert.All(rows.Skip(1), r => Assert.True(int.Parse(r[2], CultureInfo.InvariantCulture) % 100 < 60));
    }

    [Theory]
    [InlineData(90, 900, true)]
    [InlineData(270, 900, true)]
    [InlineData(90, 1100, false)]
    [InlineData(0, 150, true)]
    [InlineData(0, 250, false)]
    [InlineData(75, 700, false)]
    public void An_area_holds_what_lies_in_its_ellipse(double azimuthDeg, double distanceM, bool inside) =>
        Assert.Equal(inside, LandingScore.Holds(new SearchArea(1000, 200, 90),
            new GeodesicLine(distanceM, azimuthDeg, azimuthDeg)));

    [Fact]
    public void Estimates_are_held_against_the_landing_and_get_better()
    {
        FlightFigures figures = new(ReportedFlight.Clean);
        IReadOnlyList<LandingScore> scores = LandingScore.Of(ReportedFlight.Clean, figures);
        Assert.All(scores, s => Assert.NotEqual(LandingMethod.Landed, s.Estimate.Method));
        Assert.InRange(scores[^1].ErrorM, 0, 200);
        Assert.True(scores.Count > 5000);
        LandingScore early = scores.First(s => s.Estimate.Utc.SecondsSince(figures.Zero) > 600);
        Assert.Equal(Geodesic.DistanceM(early.Estimate.Position, figures.Truth!.Value), early.ErrorM, 0.001);
    }

    private static string[][] Rows(Action<Stream> write)
    {
        using MemoryStream to = new();
        write(to);
        string text = System.Text.Encoding.UTF8.GetString(to.ToArray());
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        return [.. text.TrimEnd().Split("\r\n").Select(l => l.Split(','))];
    }
}
