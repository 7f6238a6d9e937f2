using Groundstation.Console.Cells;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.PlanFile;

namespace Groundstation.Console.Sheets;

/// <summary>The plan sheet: what the plan comes to, in plain text at 80 columns.</summary>
internal static class PlanSheet
{
    /// <summary>The whole sheet, but for the path, which needs winds.</summary>
    public static string Text(FlightPlan plan)
    {
        SheetSection head = new("Plan: " + plan.Name);
        head.Line((plan.Units == DisplayUnits.Customary ? "Customary" : "Metric") + " units; what stands behind "
            + "± holds in 95 of 100 flights. An aid for those who decide: local law and licensed practice come first.");
        int wrong = PlanDoubts.Of(plan).Count(PlanDoubts.IsWrong);
        if (wrong > 0) head.Line($"NOT TO BE FLOWN AS IT STANDS: {wrong} wrong, see \"What to check\".");
        return SheetSection.Join([head, FillSheet.Of(plan), FlightSheet.Flight(plan),
            FlightSheet.Descent(plan), RulesSheet.Of(plan), DoubtWords.Of(plan), Assumed(plan), Cautions()]);
    }

    private static SheetSection Assumed(FlightPlan plan)
    {
        SheetSection sheet = new("Not stated, assumed by the station");
        IReadOnlyList<string> open = PlanDefaults.Describe(plan);
        foreach (string line in open) sheet.Line("- " + line);
        return open.Count == 0 ? sheet.Line("- nothing: everything is stated") : sheet;
    }

    /// <summary>Safety of people comes before the flight; local law and licensed practice before this sheet.</summary>
    private static SheetSection Cautions() => new SheetSection("Cautions")
        .Row("gas", "Hydrogen burns: no flame, no spark. Secure the cylinder, use a regulator, ventilate.")
        .Row("air", "Air traffic services and local rules decide whether to launch; nothing here separates aircraft.")
        .Row("road", "The driver drives; a passenger takes callouts.")
        .Row("recovery", "No trespass. Leave power lines, water, trees and cliffs alone; mind weather and darkness.");
}
