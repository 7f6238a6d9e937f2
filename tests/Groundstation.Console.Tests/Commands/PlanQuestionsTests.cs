using Groundstation.Console.Commands;
using Groundstation.Core.Fill;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io;
using Groundstation.Io.PlanFile;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary><c>plan --new</c> writes a plan that the reader takes, whatever is answered.</summary>
public sealed class PlanQuestionsTests
{
    private static (string Plan, string Said) Ask(string answers, bool piped)
    {
        StringWriter said = new();
        // At a terminal the rest is answered with Enter; a pipe may end.
        string typed = answers + (piped ? "" : new string('\n', 60));
        return (new PlanQuestions(new StringReader(typed), said, piped).Ask(), said.ToString());
    }

    [Fact]
    public void Blank_answers_take_the_defaults()
    {
        FlightPlan plan = PlanReader.Parse(Ask("", true).Plan, "p");
        Assert.Equal(1.2, plan.Fill.BalloonKg!.Value, 1e-9);
        Assert.Equal(5, plan.AscentRateMps, 1e-6);
        Assert.Equal(1.45, plan.DescentMassKg, 1e-9);
        Assert.Empty(PlanDoubts.Of(plan).Where(PlanDoubts.IsWrong));
    }

    [Fact]
    public void Customary_answers_make_a_customary_plan()
    {
        (string text, string said) = Ask("c\nLake \"one\"\n48 -30.5\n5000\n-\n-\n-\n40\n25\nhy\n", false);
        FlightPlan plan = PlanReader.Parse(text, "p");
        Assert.Equal((DisplayUnits.Customary, "Lake \"one\"", GasKind.Hydrogen), (plan.Units, plan.Name, plan.Fill.Gas.Kind));
        Assert.Equal(1524, plan.LaunchHeight!.Value.Metres, 1e-9);
        Assert.Contains("burst_diameter_ft = 25", text);
        Assert.Contains("Ascent rate, ft/min [1000]", said);
    }

    [Fact]
    public void A_wrong_answer_is_asked_again_or_ends_a_pipe()
    {
        (string text, string said) = Ask("\n\n\nhigh\n99999\n250\n", false);
        Assert.Contains("height_m = 250", text);
        Assert.Contains("not taken: launch.height_m = 99999: a number from -450 to 6000", said);
        Assert.Contains("a number from -450 to 6000", Assert.Throws<UserErrorException>(() => Ask("\n\n\n99999\n", true)).Message);
    }

    [Theory]
    [InlineData("250 m", "height_m = 250", "")]
    [InlineData("1,5\n250", "height_m = 250", "not taken: 1,5: a number alone, decimals behind a point")]
    [InlineData("high\n.5", "height_m = 0.5", "not taken: high: a number alone")]
    public void A_number_is_asked_for_in_words_that_a_teacher_knows(string typed, string written, string told)
    {
        (string text, string said) = Ask("\n\n\n" + typed + "\n", false);
        Assert.Contains(written, text);
        Assert.Contains(told, said);
        Assert.DoesNotContain("TOML", said);
    }

    [Fact]
    public void Who_leaves_in_the_middle_has_not_taken_the_defaults() =>
        Assert.Equal("left before the last question; nothing is written", Assert.Throws<UserErrorException>(() =>
            new PlanQuestions(new StringReader("\nLake\n"), new StringWriter(), false).Ask()).Message);

    [Fact]
    public void Leaving_everything_open_still_makes_a_plan() =>
        PlanReader.Parse(Ask(string.Concat(Enumerable.Repeat("-\n", 5)).Replace("-", "") + string.Concat(
            Enumerable.Repeat("-\n", 60)), false).Plan, "p");

    [Fact]
    public void All_cylinder_answers_go_in()
    {
        string answers = string.Concat(Enumerable.Repeat("\n", 24)) + "50\n150\n2\n100\n";
        FlightPlan plan = PlanReader.Parse(Ask(answers, true).Plan, "p");
        Assert.Equal((0.05, 150e5, 2), (plan.Fill.CylinderM3!.Value, plan.Fill.CylinderGaugePa!.Value, plan.Fill.Cylinders));
    }
}
