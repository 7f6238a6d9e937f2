using Groundstation.Console.Screens;
using Groundstation.Core.Alarms;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

public class BellTests
{
    private readonly Bell _bell = new();

    private static AlarmState Alarm(Severity severity, int order, AlarmPhase phase = AlarmPhase.Unacknowledged) =>
        new("a" + order, severity, phase, "", "", "", default, order, null);

    private int Strokes(int ticks, bool muted, params AlarmState[] alarms) =>
        Enumerable.Range(0, ticks).Count(_ => _bell.Tick(alarms, muted));

    [Theory]
    [InlineData(Severity.Advisory, 1)]
    [InlineData(Severity.Caution, 2)]
    [InlineData(Severity.Warning, 3)]
    public void A_new_alarm_rings_by_its_severity(object severity, int strokes) =>
        Assert.Equal(strokes, Strokes(50, false, Alarm((Severity)severity, 1)));

    [Fact]
    public void Strokes_are_kept_apart()
    {
        AlarmState[] alarms = [Alarm(Severity.Warning, 1)];
        int[] at = [.. Enumerable.Range(0, 20).Where(_ => _bell.Tick(alarms, false))];
        Assert.Equal([3, 3], at.Zip(at.Skip(1), (a, b) => b - a));
    }

    [Fact]
    public void An_open_warning_rings_again_every_ten_seconds_until_it_is_acknowledged()
    {
        Assert.InRange(Strokes(350, false, Alarm(Severity.Warning, 1)), 9, 12);
        Assert.Equal(0, Strokes(350, false, Alarm(Severity.Warning, 1, AlarmPhase.Acknowledged)));
    }

    [Fact]
    public void Muted_a_caution_is_silent_an_open_warning_too_but_a_new_warning_rings()
    {
        AlarmState caution = Alarm(Severity.Caution, 1), warning = Alarm(Severity.Warning, 2);
        Assert.Equal(0, Strokes(700, true, caution));
        Assert.Equal(3, Strokes(700, true, caution, warning));
        Assert.Equal(3, Strokes(700, true, caution, warning, Alarm(Severity.Warning, 3)));
    }

    [Fact]
    public void The_same_alarm_raised_anew_rings_anew()
    {
        Assert.Equal(2, Strokes(50, false, Alarm(Severity.Caution, 1)));
        Assert.Equal(0, Strokes(50, false, Alarm(Severity.Caution, 1, AlarmPhase.ReturnedUnacknowledged)));
        Assert.Equal(2, Strokes(50, false, Alarm(Severity.Caution, 2)));
    }
}
