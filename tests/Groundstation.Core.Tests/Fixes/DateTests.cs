using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>Dates come from the receiver once it can be trusted, and midnight never moves a fix by a day.</summary>
public sealed class DateTests
{
    private static Instant At(string iso) =>
        Instant.FromUtc(DateOnly.ParseExact(iso[..10], "yyyy-MM-dd", null), TimeSpan.Parse(iso[11..], null));

    // hostile.tsv midnight-gga
    [Theory]
    [InlineData("2026-06-21 23:59:58")]
    [InlineData("2026-06-22 00:00:01")] // the station's clock is 3 s ahead
    [InlineData("2026-06-21 23:58:00")] // or two minutes behind
    public void GGA_alone_is_dated_by_the_nearest_day(string heard)
    {
        var wire = new Wire(At(heard));
        foreach (string time in (string[])["235958", "235959", "000000", "000001"])
            wire.Hear(Gga(time)).Wait(1);
        wire.Wait(1);
        Assert.Equal(
            ["21T23:59:58.000Z", "21T23:59:59.000Z", "22T00:00:00.000Z", "22T00:00:01.000Z"],
            wire.Fixes.Select(f => f.Utc.ToString()[8..]));
        Assert.All(wire.Fixes, f => Assert.Equal(DateOrigin.NearestToArrival, f.DateFrom));
        Assert.All(wire.Fixes, f => Assert.True(f.Believed));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Midnight_passes_in_either_order_of_GGA_and_RMC(bool rmcFirst)
    {
        var wire = new Wire(At("2026-06-21 23:59:55"));
        for (int s = 55; s < 65; s++)
        {
            string time = s < 60 ? $"2359{s}" : $"0000{s - 60:D2}";
            string[] pair = [Gga(time), Rmc(time, s < 60 ? "210626" : "220626")];
            wire.Hear(rmcFirst ? [pair[1], pair[0]] : pair).Wait(1);
        }

        wire.Wait(1);
        Assert.Equal(10, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed));
        Assert.Equal(9, wire.Fixes[^1].Utc.SecondsSince(wire.Fixes[0].Utc));
    }

    [Fact]
    public void A_receiver_that_changes_its_date_a_second_late_is_not_followed_back()
    {
        var wire = new Wire(At("2026-06-21 23:59:58"));
        wire.Hear(Gga("235958"), Rmc("235958")).Wait(1).Hear(Gga("235959"), Rmc("235959")).Wait(1)
            .Hear(Gga("000000"), Rmc("000000", "210626")).Wait(1).Hear(Gga("000001"), Rmc("000001", "220626")).Wait(2);
        Assert.Equal("2026-06-22T00:00:00.000Z", wire.Fixes[2].Utc.ToString());
        Assert.All(wire.Fixes, f => Assert.True(f.Believed));
    }

    // hostile.tsv week-rollover, april6_2019.log: 1999-08-22 is 2019-04-07
    [Theory]
    [InlineData("2019-04-07 00:02:31", 0)]
    [InlineData("2019-04-09 12:00:00", 0)]
    [InlineData("2026-11-25 12:00:00", 2)]
    public void A_date_one_rollover_back_is_moved_on_and_says_so(string heard, int agreeing)
    {
        var wire = new Wire(At(heard));
        for (int i = 0; i <= agreeing + 2; i++)
            wire.Hear(Gga($"00023{i}"), Rmc($"00023{i}", "220899")).Wait(1);
        wire.Wait(1);
        Fix fix = wire.Last;
        Assert.Equal(DateOrigin.ReceiverRolledOver, fix.DateFrom);
        Assert.Equal(new DateOnly(2019, 4, 7), fix.Utc.Date);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
    }

    [Fact]
    public void An_unknown_station_clock_claims_no_rollover()
    {
        var wire = new Wire(At("1970-01-01 00:02:30"));
        wire.Hear(Gga("000231"), Rmc("000231", "220899")).Wait(2);
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
        Assert.Equal(new DateOnly(1999, 8, 22), wire.Last.Utc.Date);
    }

    [Fact]
    public void An_old_log_with_new_arrival_stamps_keeps_a_date_that_is_no_rollover()
    {
        var wire = new Wire(At("2019-04-07 19:41:00"));
        for (int i = 0; i < 5; i++)
            wire.Hear(Gga($"19410{i}"), Rmc($"19410{i}", "160906")).Wait(1);
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
        Assert.Equal(new DateOnly(2006, 9, 16), wire.Last.Utc.Date);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
    }

    // hostile.tsv date-wobbles-at-cold-start
    [Fact]
    public void Wild_dates_at_a_cold_start_are_not_taken()
    {
        var wire = new Wire(At("2026-06-21 09:00:00"));
        string[] dates = ["161206", "300910", "250910", "250910", "220899", "210626", "210626"];
        for (int i = 0; i < dates.Length; i++)
            wire.Hear(Gga($"09000{i}"), Rmc($"09000{i}", dates[i])).Wait(1);
        Assert.All(wire.Fixes, f => Assert.Equal(new DateOnly(2026, 6, 21), f.Utc.Date));
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.Equal(DateOrigin.NearestToArrival, wire.Fixes[0].DateFrom);
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
    }

    // hostile.tsv default-date, year-minus-1, zda-blank
    [Theory]
    [InlineData("GPRMC,090000,A,5213.12345,N,00012.34567,E,5.0,90.0,050180,,,A")]
    [InlineData("GPRMC,090000,A,5213.12345,N,00012.34567,E,5.0,90.0,060180,,,A")]
    [InlineData("GPRMC,090000,A,5213.12345,N,00012.34567,E,5.0,90.0,2208-1,,,A")]
    [InlineData("GPZDA,,,,,,")]
    public void A_date_that_is_none_leaves_the_nearest_day(string sentence)
    {
        Wire wire = new Wire().Hear(Gga("090000"), sentence).Wait(1);
        Assert.True(wire.Last.Believed);
        Assert.Equal(DateOrigin.NearestToArrival, wire.Last.DateFrom);
        Assert.Equal("2026-06-21T09:00:00.000Z", wire.Last.Utc.ToString());
    }

    // hostile.tsv leap-second
    [Fact]
    public void A_leap_second_passes()
    {
        var wire = new Wire(At("2016-12-31 23:59:58"));
        string[] times = ["235958.00", "235959.00", "235960.00", "000000.00", "000001.00"];
        for (int i = 0; i < times.Length; i++)
        {
            string latitude = $"5213.{12345 + 3800 * i}"; // 70 m/s
            wire.Hear(Gga(times[i], latitude: latitude), Rmc(times[i], i < 3 ? "311216" : "010117", latitude: latitude)
                .Replace(",5.0,90.0,", ",136.8,0.0,", StringComparison.Ordinal)).Wait(1);
        }

        wire.Wait(1);
        Assert.Equal(5, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.Equal(new DateOnly(2017, 1, 1), wire.Last.Utc.Date);
    }

    [Fact]
    public void A_station_clock_years_off_is_overruled_by_three_equal_dates()
    {
        var wire = new Wire(At("2010-01-01 00:00:00"));
        for (int i = 0; i < 6; i++)
            wire.Hear(Gga($"09000{i}"), Rmc($"09000{i}")).Wait(1);
        wire.Wait(1);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.All(wire.Fixes.Skip(2), f => Assert.Equal("2026-06-21", f.Utc.ToString()[..10]));
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
    }

    // A receiver that jumps by days in flight: 1024 weeks, a month ahead, a day back.
    [Theory]
    [InlineData("2026-06-21 09:00:00", "051106", -7168)]
    [InlineData("2026-06-21 09:00:00", "210726", 30)]
    [InlineData("2026-06-21 09:00:00", "200626", -1)]
    [InlineData("2024-01-01 00:00:00", "210726", 30)] // with the station's clock years off
    public void A_date_that_jumps_does_not_move_the_flight_and_is_told(string heard, string date, int days)
    {
        var wire = new Wire(At(heard));
        for (int i = 0; i < 50; i++)
        {
            bool jumped = i is >= 25 and < 45;
            wire.Hear(Gga($"0900{i:D2}"), Rmc($"0900{i:D2}", jumped ? date : "210626")).Wait(1);
        }

        wire.Wait(1);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
        Assert.All(wire.Fixes.Skip(3), f => Assert.Equal(new DateOnly(2026, 6, 21), f.Utc.Date));
        Assert.Equal(days, wire.Fixes[30].DateSentOff.TotalDays);
        Assert.Equal(TimeSpan.Zero, wire.Last.DateSentOff);
    }

    [Fact]
    public void ZDA_dates_a_stream_without_RMC()
    {
        Wire wire = new Wire(At("1970-01-01 00:00:00")).Hear(Gga("090000"), "GPZDA,090000,21,06,2026,00,00").Wait(1);
        Assert.Equal("2026-06-21T09:00:00.000Z", wire.Last.Utc.ToString());
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
    }
}
