using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;
using static Groundstation.Published.Nmea.HostileTable;

namespace Groundstation.Published.Nmea;

/// <summary>Rows of hostile.tsv on the fields of position and motion.</summary>
public sealed class HostileFieldTests
{
    [Theory]
    [InlineData("spliced-valid-checksum-1")]
    [InlineData("spliced-valid-checksum-2")]
    [InlineData("valid-checksum-bad-fields")]
    [HostileRow("spliced-valid-checksum-1")]
    [HostileRow("spliced-valid-checksum-2")]
    [HostileRow("valid-checksum-bad-fields")]
    public void Spliced_sentences_with_a_good_checksum_are_refused_on_their_field_count(string id) =>
        Assert.Equal([(RejectReason.FieldCount, Sample(id))], Feed(id).Rejections);

    [Fact]
    [HostileRow("merged-valid-checksum")]
    public void Two_sentences_fused_are_refused_on_their_field_count()
    {
        var sink = Seal("GPGGA,120000,4807.0380,N,01131.0000,E,1,08,0.9,545.4,M,46.9,M,,"
            + "GPGSA,A,3,04,05,,09,12,,,24,,,,,2.5,1.3,2.1");
        Assert.Equal(RejectReason.FieldCount, Assert.Single(sink.Rejections).Reason);
        Assert.Empty(sink.Accepted);
    }

    [Theory]
    [InlineData("GPGGA,12000x,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,120000,48o7.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,120000,4807.038,N,01131.000,E,A,08,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,120000,4807.038,N,01131.000,E,1,O8,0.9,545.4,M,46.9,M,,")]
    [InlineData("GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,5e5.4,M,46.9,M,,")]
    [InlineData("GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,545.4,F,46.9,M,,")]
    [InlineData("GPRMC,120000,A,4807.038,N,01131.000,E,022.4,084.4,23O313,,,A")]
    [InlineData("GPRMC,120000,A,4807.038,N,01131.000,E,022.4k,084.4,230313,,,A")]
    [HostileRow("syntax-check-fields")]
    public void A_letter_among_digits_refuses_the_sentence(string body) =>
        Assert.Equal(RejectReason.FieldGrammar, Assert.Single(Seal(body).Rejections).Reason);

    [Fact]
    [HostileRow("blank-before-fix")]
    [HostileRow("blank-gga")]
    public void Blank_is_missing_never_zero()
    {
        Assert.Equal(new Rmc(null, 'V', null, null, null, null, null, 'N', null), Feed("blank-before-fix").Only<Rmc>());
        Assert.Equal(new Gga(null, null, null, FixQuality.Invalid, 0, null, null, null), Feed("blank-gga").Only<Gga>());
    }

    [Fact]
    [HostileRow("zero-island")]
    [HostileRow("void-stale-position")]
    [HostileRow("mode-dominates")]
    [HostileRow("status-L")]
    public void Status_and_mode_are_given_as_sent_for_the_verdict_on_the_fix()
    {
        Assert.Equal('V', Feed("zero-island").Only<Rmc>().Status);
        var stale = Feed("void-stale-position").Only<Rmc>();
        Assert.Equal(('V', 53 + (47.5779 / 60)), (stale.Status, stale.LatitudeDeg!.Value));
        var noMode = Feed("mode-dominates").Only<Rmc>();
        Assert.Equal(('A', 'N'), (noMode.Status, noMode.Mode));
        Assert.Equal('L', Feed("status-L").Only<Rmc>().Status);
    }

    [Fact]
    [HostileRow("nav-status-V-is-neutral")]
    [HostileRow("nav-status-C")]
    public void Navigational_status_is_kept_apart_from_validity()
    {
        var v = Feed("nav-status-V-is-neutral").Only<Rmc>();
        Assert.Equal(('A', 'D', 'V'), (v.Status, v.Mode, v.NavigationalStatus));
        var c = Feed("nav-status-C").Only<Rmc>();
        Assert.Equal(('A', 'A', 'C'), (c.Status, c.Mode, c.NavigationalStatus));
    }

    [Fact]
    [HostileRow("quality-blank")]
    public void Blank_quality_is_unknown() => Assert.Null(Feed("quality-blank").Only<Gga>().Quality);

    [Fact]
    [HostileRow("gga-two-short")]
    [HostileRow("geoid-missing")]
    public void Trailing_fields_and_geoid_separation_may_be_missing()
    {
        Assert.Equal(-21.3, Feed("gga-two-short").Only<Gga>().GeoidSeparationM);
        var gga = Feed("geoid-missing").Only<Gga>();
        Assert.Equal((1378.0, null), (gga.AltitudeMslM, gga.GeoidSeparationM));
    }

    [Fact]
    [HostileRow("altitude-negative")]
    [HostileRow("altitude-31km")]
    [HostileRow("altitude-lost-mid-flight")]
    [HostileRow("dynamic-model")]
    public void Every_altitude_is_given_as_sent()
    {
        Assert.Equal(-412.3, Feed("altitude-negative").Only<Gga>().AltitudeMslM);
        Assert.Equal(31045.3, Feed("altitude-31km").Only<Gga>().AltitudeMslM);
        // Whether it is believed is the fixes' affair: an altitude far off must reach them, or nobody could say so.
        foreach (double altitude in new[] { 9203.8, 0.0, 9248.4, 135834.0, 49999.9 })
        {
            string body = FormattableString.Invariant(
                $"GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,{altitude:F1},M,46.9,M,,");
            Assert.Equal(altitude, Seal(body).Only<Gga>().AltitudeMslM);
        }
    }

    [Fact]
    [HostileRow("double-minus")]
    public void A_second_minus_makes_no_number()
    {
        Assert.Equal(["SDDPT"], Feed("double-minus").Others);
        Assert.Null(Seal("GPXDR,C,-1.-1,C,OUT").Only<Measured>().Value);
        Assert.Single(Seal("GPGGA,120000,4807.038,N,01131.000,E,1,08,0.9,-1.-1,M,46.9,M,,").Rejections);
    }

    [Fact]
    [HostileRow("nan-text")]
    public void Nan_and_inf_are_no_numbers()
    {
        Assert.Equal([(RejectReason.FieldGrammar, Sample("nan-text"))], Feed("nan-text").Rejections);
        Assert.Single(Seal("GPVTG,inf,T,,M,,N,,K").Rejections);
    }

    [Fact]
    [HostileRow("leading-zeros-lost")]
    public void Degrees_are_what_stands_left_of_the_minutes()
    {
        var rmc = Seal("GPRMC,114130,A,809.1250,N,2415.8050,W,12.6,341.5,280915,5,E,A").Only<Rmc>();
        Assert.Equal(8 + (9.125 / 60), rmc.LatitudeDeg!.Value, 1e-12);
        Assert.Equal(-(24 + (15.805 / 60)), rmc.LongitudeDeg!.Value, 1e-12);
    }

    [Theory]
    [InlineData("4960.0000,N,01131.000,E")]
    [InlineData("9100.0000,N,01131.000,E")]
    [InlineData("9000.0001,N,01131.000,E")]
    [InlineData("4807.038,X,01131.000,E")]
    [InlineData("4807.038,E,01131.000,N")]
    [InlineData("4807.038,N,18000.001,E")]
    [InlineData("4807.038,N,01160.000,E")]
    [InlineData("4807.038,,01131.000,E")]
    [InlineData("4807.038,N,,")]
    [InlineData("-4807.038,N,01131.000,E")]
    [InlineData("04807.038,N,01131.000,E")]
    [HostileRow("lat-range")]
    public void Positions_outside_their_range_refuse_the_sentence(string position)
    {
        Assert.Equal(RejectReason.FieldGrammar, Assert.Single(Seal($"GPGLL,{position},120000,A").Rejections).Reason);
    }

    [Fact]
    [HostileRow("sentence-heading-90")]
    public void Short_zeros_are_a_position()
    {
        var gga = Feed("sentence-heading-90").Only<Gga>();
        Assert.Equal((0.0, 0.0, -0.5), (gga.LatitudeDeg, gga.LongitudeDeg, gga.AltitudeMslM));
    }

    [Fact]
    [HostileRow("variation-zero")]
    public void Variation_zero_does_no_harm() =>
        Assert.Equal('A', Seal("GPRMC,120000,A,4807.038,N,01131.000,E,022.4,084.4,230313,0.0,E").Only<Rmc>().Status);

    [Fact]
    [HostileRow("vtg-old")]
    [HostileRow("vtg-cut")]
    public void Old_and_cut_VTG_are_read()
    {
        var old = Feed("vtg-old").Only<Vtg>();
        Assert.Equal((103.85, 92.79), (old.CourseTrueDeg, old.CourseMagneticDeg));
        Assert.Equal(0.14 * 1852 / 3600, old.SpeedMps!.Value, 1e-12);
        Assert.Equal(new Vtg(null, null, 0, null), Feed("vtg-cut").Only<Vtg>());
    }

    [Fact]
    [HostileRow("gll-short")]
    public void The_oldest_GLL_has_neither_time_nor_status()
    {
        var gll = Feed("gll-short").Only<Gll>();
        Assert.Equal((null, null), (gll.Time, gll.Status));
        Assert.Equal(-(37 + (51.65 / 60)), gll.LatitudeDeg!.Value, 1e-12);
    }
}
