using System.Text;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>What a source says late, seldom or beside the point.</summary>
public sealed class WhatComesLateTests
{
    private static string Time(double s) => (TimeSpan.FromHours(9) + TimeSpan.FromSeconds(s)).ToString("hhmmss\\.ff", null);

    private static Instant At(string iso) =>
        Instant.FromUtc(DateOnly.ParseExact(iso[..10], "yyyy-MM-dd", null), TimeSpan.Parse(iso[11..], null));

    // No clock on the laptop: only the RMC that comes too late for its own epoch knows the day.
    [Fact]
    public void A_date_that_comes_after_midnight_for_the_epoch_before_is_that_of_the_day_before()
    {
        var wire = new Wire(Instant.FromUtc(new DateOnly(1970, 1, 1), default));
        wire.Hear(Gga("235959.00")).Wait(1).Hear(Gga("000000.00"), Rmc("235959.00")).Wait(2);
        Assert.Equal("2026-06-22T00:00:00.000Z", wire.Last.Utc.ToString());
    }

    [Theory]
    [InlineData("060180")] // the GPS calendar's first day, as 1980 and, a century on, as 2080
    [InlineData("050180")]
    public void The_first_day_of_GPS_is_a_date_not_set(string date)
    {
        var wire = new Wire(At("2026-06-21 09:00:00"));
        for (int s = 0; s < 10; s++) wire.Hear(Gga(Time(s)), Rmc(Time(s), date)).Wait(1);
        Assert.All(wire.Fixes, f => Assert.Equal("2026-06-21", f.Utc.ToString()[..10]));
        Assert.All(wire.Fixes, f => Assert.Equal(DateOrigin.NearestToArrival, f.DateFrom));
    }

    [Fact]
    public void The_first_day_of_GPS_a_century_on_is_a_date_not_set_either()
    {
        var wire = new Wire(At("2026-06-21 09:00:00"));
        for (int s = 0; s < 10; s++) wire.Hear(Gga(Time(s)), $"GPZDA,{Time(s)},06,01,2080,00,00").Wait(1);
        Assert.All(wire.Fixes, f => Assert.Equal("2026-06-21", f.Utc.ToString()[..10]));
    }

    // 1024 weeks are 19.6 years. 19 years back are an old log, not a week number that has run over.
    [Fact]
    public void A_date_of_nineteen_years_ago_is_taken_as_it_is()
    {
        var wire = new Wire(At("2026-06-21 09:00:00"));
        for (int s = 0; s < 10; s++) wire.Hear(Gga(Time(s)), Rmc(Time(s), "210607")).Wait(1);
        Assert.Equal("2007-06-21", wire.Last.Utc.ToString()[..10]);
        Assert.Equal(DateOrigin.Receiver, wire.Last.DateFrom);
    }

    [Fact]
    public void A_receiver_that_adds_a_sentence_to_its_burst_is_learnt_anew()
    {
        var wire = new Wire();
        for (int s = 0; s < 5; s++) wire.Hear(Gga(Time(s))).Wait(1);
        for (int s = 5; s < 12; s++) wire.Hear(Gga(Time(s)), Rmc(Time(s))).Wait(1);
        Assert.Equal(12, wire.Fixes.Count);
        Assert.Null(wire.Fixes[5].SpeedMps);
        Assert.NotNull(wire.Last.SpeedMps);
    }

    [Fact]
    public void What_has_no_time_and_is_long_past_is_not_joined_to_the_next_epoch()
    {
        Fix fix = new Wire().Hear("GPVTG,90.0,T,,M,5.0,N,9.3,K,A").Wait(5).Hear(Gga("090000")).Wait(2).Last;
        Assert.Null(fix.SpeedMps);
    }

    [Theory]
    [InlineData(17_700, 18_000)]
    [InlineData(17_200, null)] // 800 m below it, and 600 m above the next: it is not the limit that has silenced it
    [InlineData(18_900, null)]
    public void A_receiver_s_limit_is_met_within_four_hundred_metres(int lastM, int? expected)
    {
        var wire = new Wire();
        for (int s = 0; s < 10; s++) wire.Hear(Gga(Time(s), altitude: $"{lastM}.{s}")).Wait(1);
        for (int s = 10; s < 20; s++) wire.Hear($"GPGGA,{Time(s)},,,,,0,00,99.9,,M,,M,,").Wait(1);
        Assert.Equal(expected, (int?)wire.Source.AltitudeLimitSuspected?.LimitM);
    }

    [Fact]
    public void A_whole_second_s_epochs_come_within_that_second()
    {
        var wire = new Wire();
        string[] places = [.. Enumerable.Range(0, 40).Select(i => $"4815.{1000 + i:00000}")];
        // Five a second for four seconds, then the clock stands and the epochs come once a second.
        for (int i = 0; i < 20; i++) wire.Hear(Gga($"09000{i / 5}", latitude: places[i])).Wait(0.2);
        for (int i = 20; i < 30; i++) wire.Hear(Gga("090004", latitude: places[i])).Wait(1);
        wire.Wait(2);
        Assert.All(wire.Fixes.TakeLast(9), f => Assert.Equal(RefusalReasons.FrozenUtc, f.Refused));
    }

    [Fact]
    public void Satellites_that_all_stand_at_azimuth_0_have_no_place_in_the_sky()
    {
        Wire wire = new Wire().Hear("GPGSV,1,1,03,02,05,000,11,03,21,000,29,04,12,000,23");
        Assert.All(wire.Source.Health(wire.Now).InView, v => Assert.Null(v.AzimuthDeg));
        Assert.All(wire.Source.Health(wire.Now).InView, v => Assert.Null(v.ElevationDeg));
    }

    [Theory]
    [InlineData("P,1.9,B,TANK", "P,1.013,B,BARO")]
    [InlineData("P,0.2,B,DIFF", "P,1.013,B,")]
    [InlineData("U,18.0,V,SOLAR", "U,7.4,V,")]
    public void A_tank_s_pressure_and_a_panel_s_voltage_are_not_the_payload_s(string other, string own)
    {
        Telemetry told = new Wire().Hear($"YXXDR,{own}", $"YXXDR,{other}").Source.Telemetry;
        Telemetry reversed = new Wire().Hear($"YXXDR,{other}").Source.Telemetry;
        Assert.True(told.PressurePa is null or (> 101_000 and < 102_000));
        Assert.True(told.BatteryV is null or 7.4);
        Assert.Null(reversed.PressurePa);
        Assert.Null(reversed.BatteryV);
    }

    // A driver that drops what it doubts leaves a byte or two a second: the fault shows after twenty seconds.
    [Fact]
    public void A_trickle_of_odd_bytes_is_a_wrong_rate_after_twenty_seconds()
    {
        var wire = new Wire();
        for (int s = 0; s < 25; s++)
        {
            wire.HearBytes([0xF8, 0x80]);
            string fault = wire.Source.Health(wire.Now).LineFault;
            Assert.Equal(s >= 19, fault.StartsWith("wrong baud rate?", StringComparison.Ordinal));
            wire.Wait(1);
        }
    }
}
