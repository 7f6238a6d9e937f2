using Groundstation.Core.Fixes;
using Groundstation.Core.Quantities;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>One fix an epoch, joined by UTC, completed as soon as it can be.</summary>
public sealed class EpochTests
{
    [Fact]
    public void Sentences_of_one_UTC_make_one_fix_with_all_they_say()
    {
        Wire wire = new Wire().Hear(Gga("090000.00"), "GPGSA,A,3,01,02,03,04,05,06,07,08,09,10,11,12,1.6,0.9,1.3",
            "GPVTG,90.0,T,,M,5.0,N,9.3,K,A", Rmc("090000.00")).Wait(1);
        Fix fix = Assert.Single(wire.Fixes);
        Assert.True(fix.Believed);
        Assert.Equal("2026-06-21T09:00:00.000Z", fix.Utc.ToString());
        Assert.Equal(345.2, fix.Height?.Metres);
        Assert.Equal(45.9, fix.GeoidSeparationM);
        Assert.Equal(12, fix.SatellitesUsed);
        Assert.Equal(5 * 1852.0 / 3600, fix.SpeedMps!.Value, 1e-9);
        Assert.Equal(90, fix.CourseDeg);
    }

    [Fact]
    public void An_epoch_ends_on_the_sentence_that_ended_those_before_it()
    {
        const string Gsa = "GPGSA,A,3,01,02,03,04,05,06,,,,,,,1.6,0.9,1.3";
        var wire = new Wire();
        for (int s = 0; s < 4; s++)
            wire.Hear(Gga($"09000{s}.00"), Rmc($"09000{s}.00"), Gsa).Wait(1);
        int before = wire.Fixes.Count;
        wire.Hear(Gga("090004.00"), Rmc("090004.00"));
        Assert.Equal(before, wire.Fixes.Count);
        wire.Hear(Gsa);
        Assert.Equal(before + 1, wire.Fixes.Count);
    }

    [Fact]
    public void An_epoch_whose_end_is_not_known_ends_on_another_UTC_or_in_silence()
    {
        Wire wire = new Wire().Hear(Gga("090000.00"));
        Assert.Empty(wire.Fixes);
        wire.Hear(Gga("090001.00"));
        Assert.Single(wire.Fixes);
        wire.Wait(1);
        Assert.Equal(2, wire.Fixes.Count);
    }

    // hostile.tsv gga-rmc-different-epoch
    [Fact]
    public void RMC_may_come_in_the_next_second_and_only_equal_UTC_is_joined()
    {
        Wire wire = new Wire().Hear(Gga("090015.00")).Wait(0.6).Hear(Rmc("090015.00")).Wait(0.3).Hear(Gga("090016.00"))
            .Wait(0.6).Hear(Rmc("090016.00")).Wait(2);
        Assert.Equal(2, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.Equal(5 * 1852.0 / 3600, f.SpeedMps!.Value, 1e-9));
    }

    [Fact]
    public void RMC_that_comes_after_the_next_GGA_makes_no_second_fix_but_dates_the_next()
    {
        var wire = new Wire(Instant.FromUtc(new DateOnly(1970, 1, 1), default));
        wire.Hear(Gga("090015.00")).Wait(1).Hear(Gga("090016.00"), Rmc("090015.00")).Wait(1).Hear(Gga("090017.00"),
            Rmc("090016.00")).Wait(2);
        Assert.Equal(3, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed));
        Assert.Equal("2026-06-21T09:00:17.000Z", wire.Last.Utc.ToString());
    }

    // hostile.tsv gga-two-talkers, gsa-per-system
    [Fact]
    public void Two_talkers_tell_of_one_fix_and_satellites_are_counted_once()
    {
        Wire wire = new Wire();
        for (int s = 0; s < 5; s++)
        {
            wire.Hear(Gga($"09000{s}.00"), Gga($"09000{s}.00", "GL"),
                "GNGSA,A,3,15,17,30,28,01,19,24,11,,,,,1.8,0.9,1.5",
                "GNGSA,A,3,73,82,,,,,,,,,,,1.8,0.9,1.5", Rmc($"09000{s}.00", talker: "GN")).Wait(1);
        }

        Assert.Equal(5, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed));
        Assert.All(wire.Fixes, f => Assert.Equal(10, f.SatellitesUsed));
    }

    [Fact]
    public void The_same_GGA_again_is_shown_as_refused_and_changes_nothing()
    {
        Wire wire = new Wire().Hear(Gga("090000.00"), Rmc("090000.00"), Gga("090000.00")).Wait(1)
            .Hear(Gga("090001.00"), Rmc("090001.00")).Wait(1);
        Assert.Equal([RefusalReasons.None, RefusalReasons.Duplicate, RefusalReasons.None],
            wire.Fixes.Select(f => f.Refused));
    }

    // hostile.tsv time-frozen
    [Fact]
    public void A_frozen_UTC_is_named()
    {
        var wire = new Wire();
        wire.Hear(Gga("090000.00")).Wait(1);
        for (int i = 1; i <= 5; i++)
            wire.Hear(Gga("090000.00", altitude: $"{345.2 + i}")).Wait(1);
        Assert.Equal(6, wire.Fixes.Count);
        Assert.All(wire.Fixes.Skip(1), f => Assert.Equal(RefusalReasons.FrozenUtc, f.Refused));
    }

    [Fact]
    public void Contradicting_places_in_one_epoch_are_refused_even_in_the_first()
    {
        Wire wire = new Wire().Hear(Gga("090000.00"), Rmc("090000.00", latitude: "5218.12345")).Wait(1);
        Assert.Equal(RefusalReasons.SentencesDisagree, wire.Last.Refused);
        Assert.Contains("9.3 km apart", wire.Last.Detail.ToString(), StringComparison.Ordinal);
    }

    // hostile.tsv mode-dominates, status-L, nav-status-V-is-neutral, void-stale-position
    [Theory]
    [InlineData("GPRMC,090000,A,4807.038,N,01131.000,E,022.4,084.4,210626,,,N", RefusalReasons.NoFix)]
    [InlineData("GPRMC,090000,A,4807.038,N,01131.000,E,022.4,084.4,210626,,,E", RefusalReasons.NotMeasured)]
    [InlineData("GPRMC,090000,A,4807.038,N,01131.000,E,022.4,084.4,210626,,,S", RefusalReasons.NotMeasured)]
    [InlineData("GPRMC,090000,L,4807.038,N,01131.000,E,022.4,084.4,210626,,", RefusalReasons.NoFix)]
    [InlineData("GPRMC,090000,V,4807.038,N,01131.000,E,022.4,084.4,210626,,,N", RefusalReasons.NoFix)]
    [InlineData("GNRMC,090000,A,4807.038,N,01131.000,E,022.4,084.4,210626,,,D,V", RefusalReasons.None)]
    public void RMC_alone_says_where_but_cannot_drive_the_flight(string rmc, RefusalReasons more)
    {
        Wire wire = new Wire().Hear(rmc).Wait(1);
        Assert.Equal(more | RefusalReasons.NoAltitude, wire.Last.Refused);
        Assert.Equal(more == RefusalReasons.None, wire.Source.NewestPlace is not null);
    }

    // hostile.tsv quality-blank
    [Fact]
    public void A_blank_quality_is_neither_fix_nor_none()
    {
        const string Gga = "GPGGA,090000.00,4807.038,N,01131.000,E,,11,0.8,86.0,M,30.1,M,,";
        Assert.Equal(RefusalReasons.NoFix, new Wire().Hear(Gga).Wait(1).Last.Refused);
        const string Rmc = "GPRMC,090000.00,A,4807.038,N,01131.000,E,0,0,210626,,,A";
        Assert.True(new Wire().Hear(Gga, Rmc).Wait(1).Last.Believed);
    }

    // hostile.tsv geoid-missing
    [Fact]
    public void A_missing_geoid_separation_is_supplied_and_said_so()
    {
        Wire wire = new Wire().Hear("GPGGA,090000,3925.9479,N,11945.9211,W,1,10,0.8,1378.0,M,,M,,").Wait(1);
        Assert.Equal(1378, wire.Last.Height?.Metres);
        Assert.Equal(HeightOrigin.ReceiverWithoutSeparation, wire.Last.HeightFrom);
        Assert.Equal(-23.76, wire.Last.GeoidSeparationM!.Value, 0.05); // NGA's 15-minute grid, bilinear, by a script
        wire.Hear(Gga("090001")).Wait(1);
        Assert.Equal((HeightOrigin.Receiver, 45.9), (wire.Last.HeightFrom, wire.Last.GeoidSeparationM));
    }

    // hostile.tsv blank-before-fix, blank-gga: neither time nor place
    [Fact]
    public void Blank_sentences_make_no_fix_of_their_own()
    {
        Wire wire = new Wire();
        for (int i = 0; i < 10; i++)
            wire.Hear("GPGGA,,,,,,0,00,99.99,,,,,,", "GPRMC,,V,,,,,,,,,,N").Wait(1);
        Assert.Empty(wire.Fixes);
        wire.Wait(3).Hear(Gga("090100.00"), Rmc("090100.00")).Wait(1);
        Assert.True(wire.Last.Believed);
    }

    [Theory]
    [InlineData(0.05)]
    [InlineData(0.1)]
    [InlineData(1)]
    [InlineData(10)]
    public void Rates_from_a_tenth_to_twenty_a_second(double periodS)
    {
        var wire = new Wire();
        for (int i = 0; i < 40; i++)
        {
            string time = (TimeSpan.FromHours(9) + TimeSpan.FromSeconds(i * periodS)).ToString("hhmmss'.'ff", null);
            wire.Hear(Gga(time), Rmc(time)).Wait(periodS);
        }

        wire.Wait(2);
        Assert.Equal(40, wire.Fixes.Count);
        Assert.All(wire.Fixes, f => Assert.True(f.Believed, f.Detail.ToString()));
    }
}
