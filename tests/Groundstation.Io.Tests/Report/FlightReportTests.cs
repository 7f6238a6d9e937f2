using System.Text;
using System.Xml;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Report;
using Groundstation.Io.Tests.Inspection;
using Xunit;

namespace Groundstation.Io.Tests.Report;

/// <summary>The page and what lies beside it, as a team would look at them.</summary>
public sealed class FlightReportTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void A_whole_flight_is_told_with_its_figures()
    {
        string page = Page(ReportedFlight.Clean);
        // The recording's README: burst 09:59:17 at 29 600 m, landed 95 km away.
        Assert.Contains("Fallowmere 1 (invented)", page, StringComparison.Ordinal);
        Assert.Contains("burst at 29\u202f602 m", page, StringComparison.Ordinal);
        Assert.Contains("landed 94.9 km away", page, StringComparison.Ordinal);
        foreach (string heading in new[]
        {
            "Where it went", "Altitude and rates", "How good the landing estimates were", "Plan against flown",
            "Wind column", "Air", "Receiver health", "Alarms", "Callouts", "Data quality", "Cautions, and who decides",
            "Files beside this page",
        })
            Assert.Contains($"<h2>{heading}</h2>", page, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">landing in 95 % area", page, StringComparison.Ordinal);
        // From the scenario: 5.2 m/s at sea level; its truth: landed 10:42:44.
        Assert.Contains("<dd>5.2 m/s<small>as it would be at sea level", page, StringComparison.Ordinal);
        Assert.Contains("<dd>10:42:41\u00a0Z", page, StringComparison.Ordinal);
        Assert.Contains("Hydrogen burns", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_against_flown_names_the_fill_and_compares_means_with_means()
    {
        string page = Page(ReportedFlight.Clean);
        // 29 489 m in 1 h 26 min by the fill; flown 5.2 m/s at launch and a little faster aloft.
        Assert.Contains("<td>Mean ascent rate</td><td>5.7 m/s ± 20 % (from the fill)</td><td>5.5 m/s</td>", page,
            StringComparison.Ordinal);
        Assert.Contains("<td>29\u202f647 m ± 3\u202f000 m (from the fill)</td>", page, StringComparison.Ordinal);
        Assert.Contains("units metric.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_is_in_customary_units_where_the_plan_or_the_operator_chose_them()
    {
        FlightRecord clean = ReportedFlight.Clean;
        // Callouts stand as they were said, in the plan's units.
        string page = Page(clean with { Last = clean.Last with { Units = DisplayUnits.Customary }, Callouts = [] });
        foreach (string words in (string[])["burst at 97\u202f1", "landed 59.0 mi away", "<dd>1\u202f0", "units customary",
            " mph", "−", "°F"])
            Assert.Contains(words, page, StringComparison.Ordinal);
        Assert.DoesNotContain(" ft", Page(clean), StringComparison.Ordinal);
        // Drawings, too: their ticks, titles and scale, and the alarms' causes.
        Assert.Contains("Altitude above mean sea level, thousand ft", page, StringComparison.Ordinal);
        Assert.Contains("East of launch, mi", page, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"[\d,] ?(k?m|m/s|hPa|°C|kg|km/h|km²)<", page);
        Assert.DoesNotMatch(@"\d (k?m|m/s|hPa|°C|kg|km/h|km²)\b", page);
    }

    [Fact]
    public void The_page_needs_nothing_but_itself()
    {
        string page = Page(ReportedFlight.Clean);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("src=", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch("(href|url)[=(]\"?(?!#|data:|\"?#)[a-z]",
            page.Replace("url(#", "", StringComparison.Ordinal));
        // One id a page: a plot's clip must not cut another plot.
        string[] ids = [.. System.Text.RegularExpressions.Regex.Matches(page, " id=\"([^\"]+)\"")
            .Select(m => m.Groups[1].Value)];
        Assert.NotEmpty(ids);
        Assert.Equal(ids.Length, ids.Distinct().Count());
    }

    [Fact]
    public void Every_plot_is_a_drawing_of_its_own_with_words_for_those_who_cannot_see_it()
    {
        Page(ReportedFlight.Clean);
        string[] plots = [.. Directory.GetFiles(_temp.Path, "*.svg").Select(p => Path.GetFileName(p)!).Order()];
        Assert.Equal(["air.svg", "altitude.svg", "landing-area.svg", "landing-error.svg", "plan-view.svg", "rates.svg",
            "receiver.svg", "winds.svg"], plots);
        Assert.All(plots, plot =>
        {
            XmlDocument svg = new();
            svg.Load(_temp[plot]);
            Assert.Equal("img", svg.DocumentElement!.GetAttribute("role"));
            Assert.True(svg.DocumentElement.GetAttribute("aria-label").Length > 20);
        });
    }

    [Fact]
    public void The_same_recording_gives_the_same_bytes()
    {
        FlightReport.Write(ReportedFlight.Clean, _temp["a"]);
        FlightReport.Write(ReportedFlight.Read(Bundled.Path("clean")), _temp["b"]);
        foreach (string file in Directory.GetFiles(_temp["a"]))
        {
            Assert.True(File.ReadAllBytes(file).AsSpan().SequenceEqual(
                File.ReadAllBytes(Path.Combine(_temp["b"], Path.GetFileName(file)))), file);
        }
    }

    [Fact]
    public void A_flight_that_fell_silent_asks_for_the_place_and_judges_the_estimates_by_it()
    {
        Assert.Contains("landing estimates were", Page(ReportedFlight.Silent), StringComparison.Ordinal);
        Assert.Contains("where the team found it", Page(ReportedFlight.Silent), StringComparison.Ordinal);
        string untold = Page(ReportedFlight.Silent with { Found = null });
        Assert.Contains("--found LATITUDE,LONGITUDE", untold, StringComparison.Ordinal);
        Assert.Contains("not on the ground", untold, StringComparison.Ordinal);
        Assert.False(File.Exists(_temp["landing-error.svg"]), "a plot of an earlier run that is made no more is left");
    }

    [Fact]
    public void What_a_radio_or_an_operator_sent_stays_text()
    {
        string evil = _temp.Write("=cmd.nmea", "\\s:=cmd|'<script>alert(1)</script>,c:1782000000*00\\"
            + MadeRecording.Sentence("GPXDR,C,20.0,C,<img src=x>") + "\r\n"
            + new MadeRecording().Epoch(Core.Quantities.Instant.FromUnixMilliseconds(1_782_000_000_000), 100,
                prefix: "\\s:=1+1<b>*41\\") + "\r\n");
        string page = Page(ReportedFlight.Read(evil));
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<b>", page, StringComparison.Ordinal);
        Assert.Contains("<h1>=cmd.nmea</h1>", page, StringComparison.Ordinal);
        Assert.All(File.ReadAllLines(_temp["by-time.csv"]).Skip(1).SelectMany(l => l.Split(',')),
            cell => Assert.DoesNotMatch("^\"?[=+@]", cell));
    }

    [Fact]
    public void Escaping_leaves_no_markup_no_control_and_no_turned_writing()
    {
        Assert.Equal("&lt;a href=&quot;x&quot;&gt;&amp;&#39;??? é \U0001F388",
            Html.Escape("<a href=\"x\">&'\u0000\u202e\ud800 é \U0001F388"));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(57)]
    [InlineData(4_097)]
    [InlineData(99_999)]
    [InlineData(100_003)]
    public void A_folder_cut_off_at_any_byte_is_told_as_far_as_it_goes(int bytes)
    {
        byte[] whole = File.ReadAllBytes(Path.Combine(Bundled.Path("clean"), "flight.nmea"));
        Directory.CreateDirectory(_temp["cut"]);
        File.WriteAllBytes(_temp["cut/received.nmea"], whole[..bytes]);
        string page = Page(ReportedFlight.Read(_temp["cut"]));
        Assert.EndsWith("</html>\n", page, StringComparison.Ordinal);
        Assert.Contains("Data quality", page, StringComparison.Ordinal);
        if (bytes == 99_999)
            Assert.Contains("cut off", page, StringComparison.Ordinal);
    }

    public static TheoryData<string> Foreign =>
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "data", "nmea"), "*.log")
            .Select(p => Path.GetFileName(p)!).Order()];

    [Theory, MemberData(nameof(Foreign))]
    public void Any_receivers_log_gives_a_page(string log)
    {
        string page = Page(ReportedFlight.Read(Path.Combine(AppContext.BaseDirectory, "data", "nmea", log)));
        Assert.Contains($"<h1>{log}</h1>", page, StringComparison.Ordinal);
        Assert.Contains("No launch was recognised|No epoch|none had a fix".Split('|'),
            words => page.Contains(words, StringComparison.Ordinal));
        Assert.DoesNotContain("NaN", page, StringComparison.Ordinal);
    }

    private string Page(FlightRecord record)
    {
        Assert.Equal("report.html", FlightReport.Write(record, _temp.Path)[0]);
        return File.ReadAllText(_temp["report.html"], Encoding.UTF8);
    }
}
