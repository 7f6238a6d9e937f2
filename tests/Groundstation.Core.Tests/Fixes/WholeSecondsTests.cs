using System.Globalization;
using Groundstation.Core.Fixes;
using Xunit;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>A receiver of five epochs a second that prints whole seconds; and a clock that stands, which is refused.</summary>
public class WholeSecondsTests
{
    [Fact]
    public void Five_epochs_within_a_second_make_one_fix_and_four_that_are_nothing_wrong()
    {
        Wire wire = Sent(seconds: 20, stuckFrom: int.MaxValue);
        IEnumerable<IGrouping<Groundstation.Core.Quantities.Instant, Fix>> seconds =
            wire.Fixes.GroupBy(f => f.Utc).Skip(3).SkipLast(1);
        Assert.All(seconds, second =>
        {
            Assert.True(second.First().Believed);
            Assert.Equal(5, second.Count());
            Assert.All(second.Skip(1), f => Assert.Equal(RefusalReasons.WithinSecond, f.Refused));
        });
        ReceiverHealth health = wire.Source.Health(wire.Now);
        Assert.Equal(20, health.Believed);
        Assert.InRange(health.Refused, 4, 12);
    }

    [Fact]
    public void A_clock_that_stops_is_still_called_frozen()
    {
        Wire wire = Sent(seconds: 20, stuckFrom: 10);
        Fix[] stuck = [.. wire.Fixes.TakeLast(40)];
        Assert.All(stuck, f => Assert.False(f.Believed));
        Assert.All(stuck, f => Assert.Equal(RefusalReasons.FrozenUtc, f.Refused));
    }

    private static Wire Sent(int seconds, int stuckFrom)
    {
        var wire = new Wire();
        for (int i = 0; i < seconds * 5; i++)
        {
            int second = Math.Min(i / 5, stuckFrom);
            string height = (345 + i).ToString(CultureInfo.InvariantCulture);
            wire.Hear(string.Create(CultureInfo.InvariantCulture,
                $"GPGGA,0900{second:00},4815.{1000 + i:00000},N,01130.00000,E,1,10,0.9,{height}.0,M,46.0,M,,")).Wait(0.2);
        }

        return wire;
    }
}
