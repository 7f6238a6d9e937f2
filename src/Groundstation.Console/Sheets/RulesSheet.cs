using Groundstation.Core.Plan;
using Groundstation.Core.Plan.Rules;

namespace Groundstation.Console.Sheets;

/// <summary>What the rules make of the payload, and what notice is due. Others decide.</summary>
internal static class RulesSheet
{
    /// <summary>The section.</summary>
    public static SheetSection Of(FlightPlan plan)
    {
        Payload payload = Payload.Of(plan);
        UsRules us = UsRules.Of(payload);
        IcaoRules icao = IcaoRules.Of(payload);
        SheetSection sheet = new("Rules");
        sheet.Row("14 CFR part 101", us.Subject switch
        {
            true => "SUBJECT to part 101: " + Points(us.Passed),
            false => "not subject by weight, size or line (101.1(a)(4))",
            _ => "cannot be said yet: " + Points(us.Open),
        });
        sheet.Row("notice due (US)", us.Subject == false
            ? "none by part 101; 101.7 still applies: no hazard to persons or property. Telling the nearest air "
                + "traffic "
                + "control facility is good practice, not a duty."
            : (us.Subject is null ? "if subject: " : "")
                + "prelaunch notice to the nearest air traffic control facility 6 to 24 hours before; amended so "
                + "that the "
                + "launch keeps within 30 minutes; launch notice at once after launch; cancellation at once; position "
                + "recorded every 2 hours and any loss of it for 2 hours told; report one hour before descent and at "
                + "the "
                + "end (101.37, 101.39; 101.33 and 101.35 bind the flight and its equipment).");
        sheet.Row("ICAO Annex 2", icao.Class.ToString().ToLowerInvariant() + (icao.Sure ? "" : " at least")
            + ": " + Points(icao.Because) + (icao.Open.Length > 0 ? "; not judged: " + Points(icao.Open) : ""));
        sheet.Row("notice due (ICAO)", "authorisation of the State of launch"
            + (icao.Class == BalloonClass.Light ? "; flying over another State needs that State's too, except light "
            + "balloons "
                + "used only for meteorology."
                : ", and of every State flown over; early notice to air traffic services (seven days before, from "
                    + "memory: ask), launch notice at once after launch, cancellation at once."));
        return sheet.Line("Local rules decide, and they may ask for more. Nothing has been filed with anybody: this "
            + "sheet "
            + "and the notice are aids to those who decide. Limits were read in excerpts; check the rule in force.");
    }

    private static string Points(IEnumerable<RulePoint> points) =>
        string.Join("; ", points.Select(p => $"{p.Text} [{p.Paragraph}]"));
}
