using Groundstation.Core.Quantities;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>Stamps go on evenly whatever is done to the host's clock, and what is done is told.</summary>
public sealed class HostClockTests
{
    private readonly HandClock _time = new();
    private double _uptime = 5000;

    [Fact]
    public void A_clock_set_forward_or_back_moves_no_stamp_and_is_told_once()
    {
        HostClock clock = new(_time, null, () => _uptime);
        Instant start = clock.Now;
        Pass(10);
        _time.Utc += TimeSpan.FromHours(3);
        Assert.Equal("the host clock was set forward by 10800 s: stamps go on unchanged", clock.Check());
        Assert.Null(clock.Check());
        Pass(5);
        _time.Utc -= TimeSpan.FromHours(4);
        Assert.Equal("the host clock was set back by 14400 s: stamps go on unchanged", clock.Check());
        Assert.Equal(15, clock.Now.SecondsSince(start));
    }

    [Fact]
    public void Slow_correction_by_a_time_service_is_not_told()
    {
        HostClock clock = new(_time, null, () => _uptime);
        for (int i = 0; i < 1000; i++)
        {
            Pass(1);
            _time.Utc += TimeSpan.FromMilliseconds(0.5);
            Assert.Null(clock.Check());
        }
    }

    [Fact]
    public void Time_asleep_is_added_and_told()
    {
        HostClock clock = new(_time, null, () => _uptime);
        Instant start = clock.Now;
        Pass(10);
        _uptime += 600;
        _time.Utc += TimeSpan.FromSeconds(600);
        Assert.Equal("this computer slept for 600 s: nothing was received in that time", clock.Check());
        Assert.Equal(610, clock.Now.SecondsSince(start));
        Assert.Null(clock.Check());
    }

    [Theory]
    [InlineData(1.9, false)]
    [InlineData(2.1, true)]
    public void A_step_or_a_sleep_of_two_seconds_is_told(double seconds, bool told)
    {
        HostClock set = new(_time, null, () => _uptime);
        _time.Utc += TimeSpan.FromSeconds(seconds);
        Assert.Equal(told, set.Check() is not null);
        HostClock slept = new(_time, null, () => _uptime);
        _uptime += seconds;
        _time.Utc += TimeSpan.FromSeconds(seconds);
        Assert.Equal(told, slept.Check()?.StartsWith("this computer slept", StringComparison.Ordinal) ?? false);
    }

    [Fact]
    public void A_flight_that_goes_on_never_goes_back_in_time()
    {
        Instant last = Instant.FromUnixMilliseconds(_time.Utc.ToUnixTimeMilliseconds() + 7_200_000);
        HostClock clock = new(_time, last, () => _uptime);
        Assert.Equal(7200, clock.StartedBehindS);
        Assert.True(clock.Now > last);
        Instant now = clock.Now;
        Pass(3);
        Assert.Equal(3, clock.Now.SecondsSince(now));
        Assert.Null(clock.Check());
    }

    private void Pass(double seconds)
    {
        _time.Pass(seconds);
        _uptime += seconds;
    }

    private sealed class HandClock : TimeProvider
    {
        private long _ticks;

        public DateTimeOffset Utc { get; set; } = new(2026, 6, 21, 9, 0, 0, TimeSpan.Zero);

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Pass(double seconds)
        {
            _ticks += TimeSpan.FromSeconds(seconds).Ticks;
            Utc += TimeSpan.FromSeconds(seconds);
        }

        public override DateTimeOffset GetUtcNow() => Utc;

        public override long GetTimestamp() => _ticks;
    }
}
