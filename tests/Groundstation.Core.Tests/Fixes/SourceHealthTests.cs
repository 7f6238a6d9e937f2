using System.Text;
using Groundstation.Core.Earth;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Sentences;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>Health of a receiver, its telemetry, its altitude limit, and the lines it sent.</summary>
public sealed class SourceHealthTests
{
    private static string Time(int s) => (TimeSpan.FromHours(9) + TimeSpan.FromSeconds(s)).ToString("hhmmss", null);

    [Fact]
    public void Rates_and_shares_are_those_of_the_last_minute()
    {
        var wire = new Wire();
        for (int s = 0; s < 120; s++)
        {
            wire.Hear(Gga(Time(s)), Rmc(Time(s)));
            if (s >= 60)
                wire.HearBytes("$GPGLL,4916.45,N,12311.12,W,225444.12,A,*31\r\n"u8);
            wire.Wait(1);
        }

        ReceiverHealth health = wire.Source.Health(wire.Now);
        Assert.Equal(2, health.SentencesPerSecond, 0.05);
        Assert.Equal(1, health.FixesPerSecond, 0.05);
        Assert.Equal(1.0 / 3, health.RejectedShare, 0.01);
        Assert.Equal([new(RejectReason.Checksum, 60)], health.Rejected);
        Assert.Equal("", health.LineFault);
        Assert.Equal(120, health.Believed);
        Assert.Equal(10, health.SatellitesUsed);

        wire.Wait(90);
        health = wire.Source.Health(wire.Now);
        Assert.Equal(0, health.SentencesPerSecond);
        Assert.Equal(0, health.RejectedShare);
        Assert.Equal(240, health.Accepted);
        Assert.InRange(wire.Now.SecondsSince(health.LastBelieved!.Value), 90, 92);
    }

    // hostile.tsv high-bit-set: seven bits with parity read as eight
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Parity_read_as_data_is_named(bool even)
    {
        var wire = new Wire();
        for (int s = 0; s < 30; s++)
        {
            byte[] bytes = Encoding.Latin1.GetBytes(Closed(Gga(Time(s))) + "\r\n" + Closed(Rmc(Time(s))) + "\r\n");
            for (int i = 0; i < bytes.Length; i++)
                bytes[i] |= (System.Numerics.BitOperations.PopCount(bytes[i]) % 2 == 0) == even ? (byte)0 : (byte)0x80;
            wire.HearBytes(bytes).Wait(1);
        }

        Assert.Contains("parity", wire.Source.Health(wire.Now).LineFault, StringComparison.Ordinal);
        Assert.Empty(wire.Fixes);
    }

    [Fact]
    public void A_wrong_baud_rate_is_named_and_forgotten_once_sentences_come()
    {
        var wire = new Wire();
        var noise = new byte[64];
        for (int s = 0; s < 20; s++)
        {
            for (int i = 0; i < noise.Length; i++)
                noise[i] = (byte)((s * 37 + i * 101) % 5 == 0 ? 0 : 0x80 + (i * 29 + s) % 128);
            wire.HearBytes(noise).Wait(1);
        }

        Assert.Contains("baud", wire.Source.Health(wire.Now).LineFault, StringComparison.Ordinal);
        for (int s = 0; s < 70; s++)
            wire.Hear(Gga(Time(s)), Rmc(Time(s))).Wait(1);
        Assert.Equal("", wire.Source.Health(wire.Now).LineFault);
    }

    [Fact]
    public void One_partial_line_and_a_silent_source_are_no_fault()
    {
        Wire wire = new Wire().HearBytes("13.12345,N,00012.34567,E,1,10,0.9*55\r\n"u8).Hear(Gga("090000"));
        Assert.Equal("", wire.Source.Health(wire.Now).LineFault);
        Assert.Equal("", new Wire().Source.Health(wire.Now).LineFault);
    }

    // hostile.tsv gsv-signal-own-sequence, gsv-split-over-cycles, gsv-blank-el-az
    [Fact]
    public void Satellites_in_view_are_merged_over_signals_and_cycles_and_forgotten_in_time()
    {
        Wire wire = new Wire().Hear("GPGSV,2,1,05,02,05,307,11,03,21,174,29,04,12,038,23,06,07,270,06,1").Wait(1)
            .Hear("GPGSV,2,2,05,195,,,35,1", "GPGSV,1,1,02,03,21,174,44,04,12,038,,6", "GLGSV,1,1,01,70,76,297,40");
        ReceiverHealth health = wire.Source.Health(wire.Now);
        Assert.Equal([(3, 44), (70, 40), (195, 35), (4, 23), (2, 11), (6, 6)],
            health.InView.Select(v => ((int)v.Id, (int)v.SnrDb!)));
        Assert.Empty(wire.Wait(30).Source.Health(wire.Now).InView);
    }

    [Fact]
    public void Measurements_are_sorted_by_type_unit_and_name()
    {
        // hostile.tsv xdr-many
        Wire wire = new Wire().Hear("YXXDR,C,-41.3,C,TEMP,P,0.0123,B,BARO,U,7.41,V,BATT");
        Telemetry first = wire.Source.Telemetry;
        Assert.Equal(1230, first.PressurePa!.Value, 1e-6);
        Assert.Equal((-41.3, null, 7.41, null), (first.OutsideC, first.InsideC, first.BatteryV, first.HumidityPercent));

        // The nameless pressure does not push out the named one, pascals are taken as they are.
        wire.Hear("YXXDR,C,12.5,C,tin,P,98765,P,,H,45.2,P,,P,98700,P,BARO,C,nan,C,TEMP");
        Telemetry then = wire.Source.Telemetry;
        Assert.Equal((98700.0, -41.3), (then.PressurePa, then.OutsideC));
        Assert.Equal((12.5, 45.2), (then.InsideC, then.HumidityPercent));
    }

    [Fact]
    public void Of_two_nameless_temperatures_the_first_is_outside()
    {
        Wire wire = new Wire().Hear("YXXDR,C,-50.1,C,,C,11.0,C,").Hear("YXXDR,C,-51.1,C,,C,10.0,C,");
        Assert.Equal((-51.1, 10.0), (wire.Source.Telemetry.OutsideC, wire.Source.Telemetry.InsideC));
    }

    [Theory]
    [InlineData(17_950, null, 18_000)]
    [InlineData(11_980, null, 12_000)]
    [InlineData(14_950, 15_000, 15_000)]
    [InlineData(15_000, null, null)]
    [InlineData(1_000, null, null)]
    public void No_fix_near_an_altitude_limit_is_recognised_and_ends_with_the_next_fix(
        double lastM, int? planM, int? expected)
    {
        var plan = FlightPlan.Default with
        {
            TrackerAltitudeLimit = planM is { } limit ? new HeightMsl(limit) : null,
        };
        var wire = new Wire(plan: plan);
        for (int s = 0; s < 30; s++)
            wire.Hear(Gga(Time(s), altitude: $"{lastM - 5 * (29 - s)}.0"), Rmc(Time(s))).Wait(1);
        Assert.Null(wire.Source.AltitudeLimitSuspected);
        for (int s = 30; s < 40; s++)
            wire.Hear($"GPGGA,{Time(s)},,,,,0,00,99.9,,M,,M,,", $"GPRMC,{Time(s)},V,,,,,,,210626,,,N").Wait(1);
        Assert.Equal(expected, (int?)wire.Source.AltitudeLimitSuspected?.LimitM);
        Assert.Equal(expected is not null && planM is not null, wire.Source.AltitudeLimitSuspected?.FromPlan ?? false);
        wire.Hear(Gga(Time(40), altitude: $"{lastM - 30}.0"), Rmc(Time(40))).Wait(1);
        Assert.Null(wire.Source.AltitudeLimitSuspected);
    }

    [Fact]
    public void Silence_is_no_altitude_limit()
    {
        var wire = new Wire();
        for (int s = 0; s < 30; s++)
            wire.Hear(Gga(Time(s), altitude: $"{17_900 + 5 * s}.0")).Wait(1);
        Assert.Null(wire.Wait(600).Source.AltitudeLimitSuspected);
    }

    [Fact]
    public void Recent_lines_are_kept_with_their_verdict_and_made_printable()
    {
        var wire = new Wire();
        for (int s = 0; s < 200; s++)
            wire.Hear(Gga(Time(s)));
        wire.HearBytes("\u001b[2J\0garbage\r\n"u8);
        var lines = wire.Source.RecentLines(50);
        Assert.Equal(50, lines.Length);
        Assert.Equal((Closed(Gga(Time(199))), "accepted"), (lines[^2].Text, lines[^2].Verdict));
        Assert.Equal("^1B[2J^00garbage", lines[^1].Text);
        Assert.NotEqual("accepted", lines[^1].Verdict);
    }

    [Fact]
    public void Between_the_fixes_nothing_is_allocated()
    {
        byte[] lines = Encoding.Latin1.GetBytes(string.Concat(((string[])[
            "GNGSA,A,3,15,17,30,28,01,19,24,11,,,,,1.8,0.9,1.5", "GPVTG,90.0,T,,M,5.0,N,9.3,K,A",
            "GPGSV,2,1,05,02,05,307,11,03,21,174,29,04,12,038,23,06,07,270,06,1", "PUBX,00",
            "GLGSV,1,1,01,70,76,297,40", "GPGST,090000.00,1.0,,,,2.0,2.0,3.0"]).Select(l => Closed(l) + "\r\n"))
            + "noise\r\n$GPGGA,0900\r\n");
        Wire wire = new Wire().Hear(Gga("090000.00"));
        // The least of some rounds: a collection that another test causes in between counts a few hundred bytes to this thread.
        long least = long.MaxValue;
        for (int round = 0; round < 10; round++)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            for (int i = 0; i < 100; i++)
                wire.HearBytes(lines);
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        Assert.Equal(0, least);
    }
}
