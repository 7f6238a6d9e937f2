using System.CommandLine;
using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core.Plan;
using Groundstation.Io.PlanFile;

namespace Groundstation.Console.Commands;

/// <summary><c>plan</c>: reads and checks a plan, and says what the station will use.</summary>
internal static class PlanCommand
{
    /// <summary>The command.</summary>
    public static Command Create(TextWriter output)
    {
        Argument<string> file = new("FILE") { Description = "The plan (TOML)" };
        StationCommand command = new("plan", "Read and check a plan; say what the station will use.",
            "groundstation plan plan.toml") { file };
        command.SetAction(int (ParseResult parsed) =>
        {
            output.Write(Text(PlanReader.Read(parsed.GetRequiredValue(file))));
            return 0;
        });
        return command;
    }

    private static string Text(FlightPlan plan)
    {
        Figures fig = new(plan.Units, false);
        List<string> lines =
        [
            "plan: " + plan.Name,
            "units: " + (plan.Units == DisplayUnits.Customary ? "customary" : "metric"),
            $"descent: {fig.Climb(-plan.DescentRateSeaLevelMps)} at sea level ±{plan.DescentRateLnSigma * 100:F0} %, "
                + Figures.Number(plan.DescentMassKg, 2) + " kg under the canopy",
            $"ascent: {fig.Climb(plan.AscentRateMps)} until measured, burst at {fig.Height(plan.BurstHeight.Metres)} "
                + $"±{fig.Height(plan.BurstSigmaM)} (one standard deviation)",
            "launch: " + (plan.LaunchSite is { } site ? Figures.Place(site) : "where the first fixes are")
                + (plan.LaunchHeight is { } h ? ", " + fig.Height(h.Metres) : ""),
            "landing ground: " + (plan.LandingGround is { } g ? fig.Height(g.Metres) : "as high as the launch ground"),
            "tracker's altitude limit: " + (plan.TrackerAltitudeLimit is { } l ? fig.Height(l.Metres) : "none known"),
            string.Create(CultureInfo.InvariantCulture, $"wind forecast: {plan.Forecast.Length} levels"),
            string.Create(CultureInfo.InvariantCulture,
                $"a fix needs {plan.Belief.MinSatellites} satellites and HDOP {plan.Belief.MaxHdop:0.0} or better"),
            $"alarms: no byte for {plan.Alarms.NoBytesS} s, no believed fix for {plan.Alarms.NoFixS} s",
            "",
        ];
        IReadOnlyList<string> open = PlanDefaults.Describe(plan);
        lines.Add(open.Count == 0 ? "stated: everything" : "not stated in the plan, assumed:");
        lines.AddRange(open.Select(line => "  " + line));
        lines.AddRange(["", .. Cautions]);
        return string.Join('\n', lines.Select(Printable)) + "\n";
    }

    /// <summary>Safety of people comes before the flight; local law and licensed practice before this sheet.</summary>
    private static readonly string[] Cautions =
    [
        "Cautions (local law and licensed practice come first):",
        "  gas      Secure the cylinder, use a regulator, ventilate. Hydrogen burns: no flame, no spark.",
        "  air      Air traffic services and local rules decide whether to launch; nothing here separates aircraft.",
        "  road     The driver drives; a passenger takes callouts.",
        "  recovery No trespass. Leave power lines, water, trees and cliffs alone; mind weather and darkness.",
    ];

    private static string Printable(string line) => string.Concat(line.Select(c => Glyphs.Safe(c, false)));
}
