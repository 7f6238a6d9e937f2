using System.Globalization;
using Groundstation.Console.Cells;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Plan.Rules;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Console.Sheets;

/// <summary>
/// A notice to air traffic services, ready to be read or sent: what 14 CFR 101.37(a) and ICAO Annex 2 ask for, as far
/// as the plan states it. It files nothing.
/// </summary>
internal static class NoticeSheet
{
    // Levels at which controllers hand over or separate: foreign to the plan's units, so both are always given.
    private static readonly int[] LevelsFt = [5000, 10_000, 18_000, 30_000, 45_000, 60_000];

    /// <summary>The sheet.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="landingArea">Where it is expected to land, in words; null: not worked out.</param>
    public static string Text(FlightPlan plan, string? landingArea = null)
    {
        Amounts a = new(plan.Units);
        NoticePlan n = plan.Notice;
        SheetSection what = new("Notice of an unmanned free balloon"), when = new("Expected times (UTC)");
        what.Line("NOT FILED. This text has been sent to nobody by the program. Read it or send it yourself; local "
            + "rules decide.");
        what.Row("to", Or(n.To, "(notice.to)")).Row("from", Or(n.Operator, "(notice.operator)"))
            .Row("contact in flight", Or(n.Contact, "(notice.contact)")).Row("identification", plan.Name)
            .Row("class", Class(plan))
            .Row("launch place", Or(n.Place, "(launch.place)") + (plan.LaunchSite is { } site
                ? ", " + Figures.Place(site) + " (" + Sexagesimal(site.LatitudeDeg, 'N', 'S', 2)
                    + Sexagesimal(site.LongitudeDeg, 'E', 'W', 3) + ")" : " (launch.latitude_deg, longitude_deg)")
                + (plan.LaunchHeight is { } h ? ", elevation " + Both(h.Metres) : ""))
            .Row("launch time", plan.LaunchUtc is { } utc ? Figures.Date(utc) + " " + Figures.Clock(utc)[..5] + " UTC"
                : "(launch.time_utc)")
            .Row("colours", Or(n.Colours, "(notice.colours)"));
        FillResult? r = FillResult.Of(plan);
        what.Row("balloon", r is null ? "(balloon.mass_kg)" : $"latex, {a.Mass(r.Fill.BalloonKg)}, "
            + (r.Fill.Gas.Kind == GasKind.Helium ? "helium" : "hydrogen")
            + $", {a.Length(r.Fill.DiameterM)} across at launch, {a.Length(r.BurstDiameterM)} at burst");
        Payload p = Payload.Of(plan);
        what.Row("payload", $"{p.Packages} package{(p.Packages > 1 ? "s" : "")}, {a.Mass(p.TotalKg)} together"
            + (p.HeaviestKg is { } heavy && p.Packages > 1 ? $", heaviest {a.Mass(heavy)}" : "")
            + $"; all under the balloon {a.Mass(plan.DescentMassKg)}");
        what.Row("train", plan.Load.TrainM is { } train ? a.Length(train) + " from neck to lowest "
            + "package" : "(payload.train_m)");
        what.Row("parachute", $"descends at about {a.Rate(plan.DescentRateSeaLevelMps)} near the ground");
        Times(when, plan);
        SheetSection where = new("Landing");
        where.Row("expected area", landingArea ?? "not worked out: no winds were given");
        where.Row("note", "Times hold for calm standard air and the stated launch time; the burst may come "
            + $"{a.Fig.Height(plan.BurstSigmaM * 2)} higher or lower.");
        return SheetSection.Join([what, when, where]);
    }

    private static void Times(SheetSection sheet, FlightPlan plan)
    {
        FillResult? r = FillResult.Of(plan);
        double from = plan.LaunchHeight?.Metres ?? 0, top = plan.BurstHeight.Metres;
        DescentResult descent = DescentResult.Of(plan);
        if (FlightTimes.UpSeconds(plan) is not { } up || descent.Seconds is not { } down)
        {
            sheet.Line("cannot be told: the plan's balloon does not reach its burst.");
            return;
        }

        double UpTo(double m) => r is null || plan.Stated.Contains("balloon.ascent_rate_mps")
            ? (m - from) / plan.AscentRateMps
            : Climb.Seconds(r.Fill, new(from), new(m)) ?? 0;
        sheet.Row("launch", At(plan, 0));
        foreach (int ft in LevelsFt.Where(l => l * FootM > from && l * FootM < top))
        {
            double m = ft * FootM;
            string downAt = m > descent.Ground.Metres
                ? ", down " + At(plan, up + descent.Fall.Fall(plan.BurstHeight, new(m)).Seconds) : "";
            sheet.Row(Both(m), "up " + At(plan, UpTo(m)) + downAt);
        }

        sheet.Row("burst at " + new Amounts(plan.Units).Fig.Height(top), At(plan, up));
        sheet.Row("landing", At(plan, up + down) + $" (in the air {Amounts.Minutes(up + down)})");
    }

    private static string At(FlightPlan plan, double seconds) => plan.LaunchUtc is { } launch
        ? Figures.Clock(launch.PlusSeconds(Math.Round(seconds / 60) * 60))[..5]
        : "launch + " + Amounts.Minutes(seconds);

    private static string Both(double metres) => string.Create(CultureInfo.InvariantCulture,
        $"{Math.Round(metres / FootM):F0} ft / {Math.Round(metres):F0} m");

    private static string Class(FlightPlan plan)
    {
        Payload p = Payload.Of(plan);
        IcaoRules icao = IcaoRules.Of(p);
        return $"ICAO Annex 2: {icao.Class.ToString().ToLowerInvariant()}{(icao.Sure ? "" : " at least")}; 14 CFR "
            + "part 101: "
            + (UsRules.Of(p).Subject switch { true => "subject", false => "not subject", _ => "not decided" });
    }

    /// <summary>Degrees and whole minutes without marks, as aeronautical messages write a place:
    /// <c>4815N03030W</c>.</summary>
    private static string Sexagesimal(double deg, char plus, char minus, int digits)
    {
        int minutes = (int)Math.Round(Math.Abs(deg) * 60);
        string degrees = (minutes / 60).ToString(CultureInfo.InvariantCulture).PadLeft(digits, '0');
        return degrees + (minutes % 60).ToString("D2", CultureInfo.InvariantCulture) + (deg < 0 ? minus : plus);
    }

    private static string Or(string text, string missing) => text.Length > 0 ? text : "NOT STATED " + missing;
}
