using Groundstation.Core.Alarms;
using Groundstation.Core.Flight;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Alarms;

public class AlarmBoardTests
{
    private static readonly Instant Start = Instant.FromUnixMilliseconds(1_782_000_000_000);
    private bool _first, _second, _third;
    private readonly AlarmBoard _board;

    public AlarmBoardTests() => _board = new(
    [
        new("first", Severity.Caution, "b", "c", "n", (_, _) => _first ? (Saying)"first holds" : null,
            OnDelayS: 2, OffDelayS: 3),
        new("second", Severity.Warning, "b", "c", "n", (_, _) => _second ? (Saying)"second holds" : null,
            SuppressedBy: ["first"]),
        new("third", Severity.Warning, "b", "c", "n", (_, _) => _third ? (Saying)"third holds" : null),
    ]);

    private string At(double seconds)
    {
        Instant now = Start.PlusSeconds(seconds);
        AlarmInput input = new() { Arrival = now, Started = Start, Plan = FlightPlan.Default, Flight = new FlightState() };
        return string.Join(' ', _board.Evaluate(input, now).Select(c => $"{c.Word}:{c.Alarm.Id}"));
    }

    private AlarmChange? Shelve(string id, double forS, double atS) =>
        _board.Shelve(id, forS, Start.PlusSeconds(atS), Start.PlusSeconds(atS));

    [Fact]
    public void A_condition_shorter_than_the_on_delay_raises_nothing()
    {
        _first = true;
        Assert.Equal("", At(0));
        Assert.Equal("", At(1));
        _first = false;
        Assert.Equal("", At(2));
        Assert.Empty(_board.Standing);
    }

    [Fact]
    public void Raised_acknowledged_cleared()
    {
        _first = true;
        At(0);
        Assert.Equal("raised:first", At(2));
        Assert.Equal("acknowledged", _board.Acknowledge("first", Start.PlusSeconds(3))?.Word);
        Assert.Equal(AlarmPhase.Acknowledged, Assert.Single(_board.Standing).Phase);
        _first = false;
        Assert.Equal("", At(4));
        Assert.Equal("cleared:first", At(7));
        Assert.Empty(_board.Standing);
    }

    [Fact]
    public void Gone_before_anybody_saw_it_stays_until_acknowledged()
    {
        _first = true;
        At(0);
        At(2);
        _first = false;
        At(3);
        Assert.Equal("returned:first", At(6));
        Assert.Equal(AlarmPhase.ReturnedUnacknowledged, Assert.Single(_board.Standing).Phase);
        Assert.Equal("acknowledged", _board.Acknowledge("first", Start.PlusSeconds(9))?.Word);
        Assert.Empty(_board.Standing);
    }

    [Fact]
    public void A_flicker_within_the_off_delay_does_not_chatter()
    {
        _first = true;
        At(0);
        At(2);
        for (int i = 3; i < 60; i++)
        {
            _first = i % 2 == 0;
            Assert.Equal("", At(i));
        }
    }

    [Fact]
    public void A_standing_cause_suppresses_its_consequence_until_it_is_gone()
    {
        _first = true;
        At(0);
        At(2);
        _second = true;
        Assert.Equal("", At(3));
        _board.Acknowledge("first", Start);
        _first = false;
        At(4);
        Assert.Equal("cleared:first raised:second", At(7));
    }

    [Fact]
    public void Shelved_is_silent_until_its_time_is_over_and_then_comes_back_if_it_still_holds()
    {
        _first = true;
        At(0);
        At(2);
        Assert.Equal("shelved", Shelve("first", 57, 3)?.Word);
        Assert.Equal("", At(59));
        Assert.False(Assert.Single(_board.Standing).Standing);
        Assert.Equal("raised:first", At(60));
    }

    [Fact]
    public void A_standing_consequence_is_taken_back_when_its_cause_is_recognised()
    {
        _second = true;
        Assert.Equal("raised:second", At(0));
        _first = true;
        At(1);
        Assert.Equal("raised:first suppressed:second", At(3));
        Assert.Equal("first", Assert.Single(_board.Standing).Id);
    }

    [Fact]
    public void A_cause_put_aside_still_suppresses_its_consequence()
    {
        _first = _second = true;
        At(0);
        At(2);
        Shelve("first", 600, 3);
        Assert.Equal("", At(30));
        Assert.DoesNotContain(_board.Standing, a => a.Id == "second");
    }

    [Fact]
    public void Taken_from_the_shelf_it_is_raised_if_it_still_holds_and_else_is_normal()
    {
        _first = true;
        At(0);
        At(2);
        Shelve("first", 600, 3);
        Assert.Equal("raised", _board.Unshelve("first", Start.PlusSeconds(4))?.Word);
        Shelve("first", 600, 5);
        _first = false;
        At(6);
        At(10);
        Assert.Equal("unshelved", _board.Unshelve("first", Start.PlusSeconds(11))?.Word);
        Assert.Empty(_board.Standing);
        Assert.Null(_board.Unshelve("first", Start.PlusSeconds(12)));
    }

    [Fact]
    public void Acknowledged_for_one_link_it_is_raised_anew_when_a_second_one_joins()
    {
        string[] lost = ["radio1"];
        AlarmBoard board = new([new("lost", Severity.Caution, "b", "c", "n",
            (_, _) => new AlarmFinding(string.Join(' ', lost), [.. lost]))]);
        string Now(double s) => string.Join(' ', board.Evaluate(new()
        {
            Arrival = Start.PlusSeconds(s),
            Started = Start,
            Plan = FlightPlan.Default,
            Flight = new FlightState(),
        }, Start.PlusSeconds(s)).Select(c => c.Word));
        Assert.Equal("raised", Now(0));
        board.Acknowledge("lost", Start);
        Assert.Equal("", Now(1));
        lost = ["radio1", "radio2"];
        Assert.Equal("raised", Now(2));
        board.Acknowledge("lost", Start);
        lost = ["radio2"];
        Assert.Equal("", Now(3));
        lost = ["radio1", "radio2"];
        Assert.Equal("", Now(4));
    }

    [Fact]
    public void Warnings_stand_above_cautions_and_order_tells_which_was_first()
    {
        _third = true;
        Assert.Equal("raised:third", At(0));
        _first = true;
        At(1);
        At(3);
        Assert.Equal(["third", "first"], _board.Standing.Select(a => a.Id));
        Assert.Equal([1, 2], _board.Standing.Select(a => a.Order));
    }

    [Fact]
    public void Unknown_or_normal_alarms_cannot_be_acknowledged_or_shelved()
    {
        Assert.Null(_board.Acknowledge("first", Start));
        Assert.Null(_board.Acknowledge("nonsense", Start));
        Assert.Null(Shelve("first", 0, 0));
    }

    [Fact]
    public void Every_alarm_has_its_own_id_a_consequence_and_a_next_step_and_suppressors_come_first()
    {
        List<string> seen = [];
        foreach (AlarmRule rule in AlarmRules.All)
        {
            Assert.DoesNotContain(rule.Id, seen);
            Assert.All(rule.SuppressedBy, id => Assert.Contains(id, seen));
            Assert.Matches("^[a-z]+(-[a-z]+)*$", rule.Id);
            Assert.NotEmpty(rule.Because);
            Assert.NotEmpty(rule.Consequence);
            Assert.NotEmpty(rule.NextStep);
            seen.Add(rule.Id);
        }
    }
}
