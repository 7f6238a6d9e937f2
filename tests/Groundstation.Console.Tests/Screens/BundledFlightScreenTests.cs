using System.Text.RegularExpressions;
using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>Every screen of the bundled flights at three sizes: what an operator must find on it, and nothing cut.</summary>
public partial class BundledFlightScreenTests
{
    private static readonly (int Width, int Height)[] Sizes = [(80, 24), (120, 40), (200, 60)];

    /// <summary>Flight, moment, screen, and what must stand there; <c>|</c> between the pieces.</summary>
    public static TheoryData<string, string, string, string> Expected => new()
    {
        { "clean", "pad", nameof(ScreenId.Flight), "ON THE PAD|heard|Position|Receivers|radio1|fix/s|sat" },
        { "clean", "ascent", nameof(ScreenId.Flight),
            "ASCENT|T+00:41|no burst yet|by expected burst|"
            + "half inside|95 of 100|to say" },
        { "clean", "ascent", nameof(ScreenId.Where), "Where is it?|launch|balloon|landing|↑N|├|path expected|50 km" },
        { "clean", "ascent", nameof(ScreenId.High),
            "burst expected at 29 647 m|T+0|30 km|"
            + "Vertical rate|not measured yet" },
        { "clean", "ascent", nameof(ScreenId.Land),
            "place|from launch|from the balloon|from the plan|"
            + "half of flights|because of|How it has moved|dotted|10 km" },
        { "clean", "ascent", nameof(ScreenId.Wind), "height|from|speed|±|off by|◇|●|█|▒|bars reach to" },
        { "clean", "ascent", nameof(ScreenId.Believe),
            "radio1|lines/s|Satellites|dB-Hz|█|Refused fixes|"
            + "none|Lines received|accepted $GNGGA" },
        { "clean", "ascent", nameof(ScreenId.Happened), "Phase: ascent|Launch detected" },
        { "clean", "ascent", nameof(ScreenId.Say), "Chase, Mission Control, 09:1|read-back: y right, x wrong" },
        { "clean", "burst", nameof(ScreenId.High), "burst 29 6|DESCENT" },
        { "clean", "burst", nameof(ScreenId.Wrong), "CAUTION|Descent began|because|so|do" },
        { "clean", "descent", nameof(ScreenId.Land), "by descent heard|±|because of" },
        { "clean", "landed", nameof(ScreenId.Flight), "LANDED|Landing place|heard on the ground|47.303" },
        { "clean", "landed", nameof(ScreenId.Where), "landed|burst|launch" },
        { "clean", "landed", nameof(ScreenId.Land), "as heard there|landed" },
        { "silent-descent", "silent", nameof(ScreenId.Flight),
            "NOT HEARD|WARNING|descent?|~|Position, expected|"
            + "last heard|by model, not heard|to say" },
        { "silent-descent", "silent", nameof(ScreenId.Where), "last heard|expected|landing" },
        { "silent-descent", "silent", nameof(ScreenId.Land), "from expected|±|How it has moved|in " },
        { "silent-descent", "silent", nameof(ScreenId.Believe), "SILENT|none told now|no altitude|rejected" },
        { "silent-descent", "silent", nameof(ScreenId.Wrong), "No believed fix|No byte|do" },
        { "silent-descent", "long silent", nameof(ScreenId.Land), "landed?|ago" },
        { "altitude-limit", "above the limit", nameof(ScreenId.Flight), "NO GOOD FIX|fix again|no good fix" },
        { "altitude-limit", "above the limit", nameof(ScreenId.Land), "fix again|by model, no good fix" },
        { "altitude-limit", "heard again", nameof(ScreenId.High), "falling at|measured" },
    };

    /// <summary>All moments.</summary>
    public static TheoryData<string, string> Moments =>
        [.. BundledFlights.Moments.Select(m => new TheoryDataRow<string, string>(m.Flight, m.Moment))];

    private static string Paint(Snapshot s, ScreenId screen, int width, int height, DisplayUnits? units = null)
    {
        Canvas canvas = new();
        canvas.Reset(width, height);
        Painter.Paint(canvas, s, new FeedStatus { Recording = "flights/demo", Lines = 4321 },
            new View { Screen = screen, Units = units is { } u ? (u, s.Units) : null });
        return canvas.ToString();
    }

    [Theory]
    [MemberData(nameof(Expected))]
    public void The_operator_finds(string flight, string moment, string screen, string words)
    {
        foreach ((int width, int height) in Sizes)
        {
            string text = Paint(BundledFlights.At(flight, moment), Enum.Parse<ScreenId>(screen), width,
                height);
            foreach (string word in words.Split('|'))
                Assert.True(text.Contains(word, StringComparison.Ordinal),
                    $"no \"{word}\" at {width}×{height}:\n{text}");
        }
    }

    [Theory]
    [MemberData(nameof(Moments))]
    public void No_line_is_cut_but_those_of_lists_that_name_longer_ones(string flight, string moment)
    {
        // Raw lines and the list of callouts are as long as they are: their first words tell which they are. The
        // checklist before the launch has a column for what the station sees.
        foreach (ScreenId screen in Enum.GetValues<ScreenId>()
            .Except([ScreenId.Believe, ScreenId.Say, ScreenId.Ready]))
        {
            foreach ((int width, int height) in Sizes)
            {
                // The second line says which alarm it is; key 7 leads to all of it.
                string text = string.Join('\n', Paint(BundledFlights.At(flight, moment), screen, width, height)
                    .Split('\n').Where((_, row) => row != 1));
                Assert.True(!text.Contains('…', StringComparison.Ordinal), $"{screen} at {width}×{height}:\n{text}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Moments))]
    public void Every_screen_keeps_to_the_units_chosen(string flight, string moment)
    {
        Snapshot s = BundledFlights.At(flight, moment);
        foreach (ScreenId screen in Enum.GetValues<ScreenId>())
        {
            foreach (DisplayUnits units in Enum.GetValues<DisplayUnits>())
            {
                View view = new() { Screen = screen, Units = (units, s.Units) };
                // Callouts stand as they were said, in the plan's units.
                Snapshot shown = s.Plan.Units == units ? s : s with { Callouts = [] };
                foreach ((int width, int height, bool ascii) in
                    ((int, int, bool)[])[(80, 24, false), (160, 48, false), (80, 24, true), (160, 48, true)])
                {
                    Assert.DoesNotMatch(units == DisplayUnits.Customary ? Metric() : Customary(),
                        Painted.Paint(shown, view, width, height, ascii: ascii));
                }
            }
        }
    }

    [GeneratedRegex(@"(?<![\dA-Za-z])\d[\d. ]*(k?m|m/s|hPa|(°|deg )C|kg|k?m²|sq k?m|m³|litres|bar)(?![\w/.…>])")]
    private static partial Regex Metric();

    [GeneratedRegex(@"(?<![\dA-Za-z])\d[\d. ]*(k?ft|mi|mph|ft/min|inHg|(°|deg )F|lb|oz|sq (ft|mi)|ft[²³]|psi)"
        + @"(?![\w/.…>])")]
    private static partial Regex Customary();

    [Theory]
    [MemberData(nameof(Moments))]
    public void The_standing_lines_are_whole_on_every_screen(string flight, string moment)
    {
        Snapshot s = BundledFlights.At(flight, moment);
        foreach (ScreenId screen in Enum.GetValues<ScreenId>())
        {
            foreach (DisplayUnits units in Enum.GetValues<DisplayUnits>())
            {
                string[] lines = Paint(s, screen, 80, 24, units).Split('\n');
                Assert.Matches(@"^\d\d:\d\d:\d\dZ +(T[+-]\d\d:\d\d:\d\d|before launch) +[A-Za-z? ]+ +~?-?[\d ]+ (m|ft) +"
                    + @"~?[+-]?[\d. ]+ (m/s|ft/min) +(heard|LATE, heard|NOT HEARD|NO GOOD FIX|NO NEW FIX|LINK LOST) [\dhmins ]+( ago)?$", lines[0]);
                Assert.EndsWith("recording, 4321 lines", lines[1], StringComparison.Ordinal);
            }
        }
    }
}
