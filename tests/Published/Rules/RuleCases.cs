using Groundstation.Core.Plan;
using Groundstation.Core.Plan.Rules;
using Xunit;
using static Groundstation.Core.Quantities.CustomaryUnits;

namespace Groundstation.Published.Rules;

/// <summary>
/// rules_us_cases.tsv and rules_icao_cases.tsv: cases worked by hand from 14 CFR 101.1(a)(4) and from SERA appendix 2
/// (the texts were read in excerpts; see the tables beside them).
/// </summary>
public class RuleCases
{
    [Fact]
    public void Every_case_of_14_CFR_101()
    {
        PublishedTable table = PublishedTable.Read("rules_us_cases.tsv");
        Assert.Equal(8, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            UsRules rules = UsRules.Of(new(row.Number("total_lb") * PoundKg, (int)row.Number("packages"),
                row.Number("heaviest_lb") * PoundKg, row.Number("smallest_face_in2_of_heaviest") * 0.00064516,
                row.Number("suspension_break_lbf") * PoundForceN));
            Assert.True(rules.Subject == (row["result"] == "subject"), $"{row}: {rules.Subject}");
            Assert.Equal(rules.Subject == true, rules.Passed.Length > 0);
        }
    }

    [Fact]
    public void Every_case_of_ICAO_Annex_2()
    {
        PublishedTable table = PublishedTable.Read("rules_icao_cases.tsv");
        Assert.Equal(12, table.Rows.Count);
        foreach (PublishedRow row in table.Rows)
        {
            IcaoRules rules = IcaoRules.Of(new(row.Number("combined_kg"), (int)row.Number("packages"),
                row.Number("heaviest_kg"), row.Number("smallest_face_cm2_of_heaviest") * 1e-4, row.Number("rope_N")));
            Assert.True(rules.Class == Enum.Parse<BalloonClass>(row["class"], true), $"{row}: {rules.Class}");
            Assert.True(rules.Sure);
        }
    }

    [Fact]
    public void What_is_not_known_is_asked_for_only_where_it_decides()
    {
        Payload light = new(1.2, 1, 1.2, null, null);
        Assert.Null(UsRules.Of(light).Subject);
        Assert.Equal(["state payload.line_break_lbf"], UsRules.Of(light).Open.Select(o => o.Text));
        Assert.False(UsRules.Of(light with { LineBreakN = 100 }).Subject);
        Assert.True(UsRules.Of(light with { HeaviestKg = 3 }).Subject);
        Assert.Null(UsRules.Of(new(2.5, 1, 2.5, null, 100)).Subject);
        Assert.False(IcaoRules.Of(light).Sure);
        Assert.Equal(BalloonClass.Heavy, IcaoRules.Of(light with { LineBreakN = 230 }).Class);
        Assert.True(IcaoRules.Of(light with { LineBreakN = 230 }).Sure);
    }

    [Fact]
    public void Without_boxes_in_the_plan_everything_under_the_balloon_counts()
    {
        FlightPlan plan = FlightPlan.Default with { DescentMassKg = 2.5 };
        Assert.Equal(2.5, Payload.Of(plan).HeaviestKg);
        Assert.Equal(2, Payload.Of(plan with { Load = new() { BoxesKg = 2 } }).TotalKg);
        Assert.Null(Payload.Of(plan with { Load = new() { Packages = 2 } }).HeaviestKg);
    }
}
