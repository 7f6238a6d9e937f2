using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;
using static Groundstation.Published.Nmea.HostileTable;

namespace Groundstation.Published.Nmea;

/// <summary>Rows of hostile.tsv on satellites, talkers, proprietary sentences, measurements and texts.</summary>
public sealed class HostileSatelliteTests
{
    private static short[] Ids(Gsv gsv)
    {
        var ids = new short[gsv.SatelliteCount];
        for (int i = 0; i < ids.Length; i++) ids[i] = gsv.Satellites[i].Id;
        return ids;
    }

    private static short[] Ids(Gsa gsa)
    {
        var ids = new short[gsa.SatelliteCount];
        for (int i = 0; i < ids.Length; i++) ids[i] = gsa.Satellites[i];
        return ids;
    }

    [Fact]
    [HostileRow("gsa-auto-no-fix")]
    public void A_short_GSA_without_fix_is_read() =>
        Assert.Equal(FixDimension.None, Feed("gsa-auto-no-fix").Only<Gsa>().Dimension);

    [Fact]
    [HostileRow("gsa-per-system")]
    [HostileRow("gsa-system-id")]
    public void Each_GSA_gives_its_own_satellites_and_system()
    {
        var sink = Collector.Of(Sample("gsa-per-system").Replace(" + ", "\r\n", StringComparison.Ordinal) + "\r\n");
        Assert.Equal([17, 28, 30, 13, 19, 7, 11, 15, 1, 51], Ids((Gsa)sink.Messages[0]));
        Assert.Equal([81, 79, 82, 78, 88, 80, 69], Ids((Gsa)sink.Messages[1]));
        var gsa = Feed("gsa-system-id").Only<Gsa>();
        Assert.Equal([6, 199, 30, 195, 19, 3, 7], Ids(gsa));
        Assert.Equal((1, 0.98), (gsa.SystemId, gsa.Vdop));
    }

    [Fact]
    public void A_time_dilution_in_the_place_of_the_system_costs_no_GSA()
    {
        // All ten GSA with a fix of beidou-bd.log have it.
        var gsa = Collector.Of("$GPGSA,A,3,25,32,,,,,,,,,,,5.1,1.3,4.9,3.3*3D\r\n").Only<Gsa>();
        Assert.Equal((FixDimension.ThreeD, 1.3, null), (gsa.Dimension, gsa.Hdop, gsa.SystemId));
        Assert.DoesNotContain(Collector.Of(NmeaData.Bytes("beidou-bd.log")).Rejections,
            r => r.Reason != RejectReason.NotASentence);
    }

    [Fact]
    [HostileRow("gsv-signal-id")]
    [HostileRow("gsv-signal-hex")]
    public void The_field_left_over_is_the_signal_in_hexadecimal()
    {
        var gsv = Feed("gsv-signal-id").Only<Gsv>();
        Assert.Equal(1, gsv.SignalId);
        Assert.Equal([26, 29, 31], Ids(gsv));
        Assert.Equal(11, Feed("gsv-signal-hex").Only<Gsv>().SignalId);
    }

    [Fact]
    [HostileRow("gsv-signal-own-sequence")]
    [HostileRow("gsv-signal-same-sequence")]
    [HostileRow("gsv-split-over-cycles")]
    public void Each_part_says_what_is_needed_to_group_it_by_talker_and_signal()
    {
        // The grouping itself is shown with the fixes.
        var sink = Collector.Of(SentenceWriter.Seal("GPGSV,3,1,09,01,10,100,30,1") + "\r\n"
            + SentenceWriter.Seal("GPGLL,4916.45,N,12311.12,W,225444.12,A,A") + "\r\n"
            + SentenceWriter.Seal("GPGSV,1,1,04,02,20,200,31,4") + "\r\n"
            + SentenceWriter.Seal("GPGSV,6,5,20,03,30,300,32,5") + "\r\n");
        Assert.Equal([(1, 1), (1, 4), (5, 5)],
            sink.Messages.OfType<Gsv>().Select(g => (g.Part!.Value, g.SignalId!.Value)));
    }

    [Fact]
    [HostileRow("gsv-4.11-omits")]
    public void Unchanged_fields_left_blank_are_missing()
    {
        var gsv = Feed("gsv-4.11-omits").Only<Gsv>();
        Assert.Equal((null, 2, null), (gsv.Parts, gsv.Part, gsv.InView));
        Assert.Equal([7, 30, 27, 15], Ids(gsv));
    }

    [Fact]
    [HostileRow("gsv-no-sat")]
    [HostileRow("gsv-blank-prn")]
    public void Satellites_without_a_number_are_skipped()
    {
        var none = Feed("gsv-no-sat").Only<Gsv>();
        Assert.Equal((1, 0), (none.InView, none.SatelliteCount));
        Assert.Equal([7, 9], Ids(Seal("GPGSV,1,1,03,07,43,071,39,,30,107,38,09,13,026,34").Only<Gsv>()));
    }

    [Fact]
    [HostileRow("gsv-blank-el-az")]
    [HostileRow("gsv-cut-last")]
    public void Blank_elevation_azimuth_and_strength_are_missing()
    {
        var gsv = Feed("gsv-blank-el-az").Only<Gsv>();
        Assert.Equal(new SatelliteInView(195, null, null, 35), gsv.Satellites[3]);
        Assert.Equal(new SatelliteInView(88, 7, 28, null), Feed("gsv-cut-last").Only<Gsv>().Satellites[0]);
    }

    [Fact]
    [HostileRow("gsv-more-than-9")]
    [HostileRow("gsv-all-azimuth-0")]
    public void Parts_and_satellites_have_no_fixed_limit_of_nine_and_twelve()
    {
        var gsv = Seal("GPGSV,12,11,45,41,00,000,30,42,00,000,31,43,00,000,32,44,00,000,33").Only<Gsv>();
        Assert.Equal((12, 11, 45), (gsv.Parts, gsv.Part, gsv.InView));
        Assert.Equal((short?)0, gsv.Satellites[0].AzimuthDeg); // all zero is ignored where the sky is drawn, not here
    }

    [Theory]
    [InlineData("GP")]
    [InlineData("GL")]
    [InlineData("GA")]
    [InlineData("GB")]
    [InlineData("BD")]
    [InlineData("GQ")]
    [InlineData("QZ")]
    [InlineData("PQ")]
    [InlineData("GI")]
    [InlineData("GN")]
    [InlineData("IN")]
    [InlineData("II")]
    [InlineData("EC")]
    [InlineData("SN")]
    [InlineData("LC")]
    [HostileRow("talkers")]
    [HostileRow("gga-two-talkers")]
    public void Every_talker_is_read(string talker)
    {
        var sink = Collector.Of(SentenceWriter.Seal($"{talker}GGA,120000,4807.038,N,01131.000,E,1,08,0.9,545.4,M,,M,,")
            + "\r\n" + SentenceWriter.Seal($"{talker}GSV,1,1,01,07,43,071,39") + "\r\n");
        Assert.Equal(545.4, Assert.IsType<Gga>(sink.Messages[0]).AltitudeMslM);
        Assert.Equal([7], Ids(Assert.IsType<Gsv>(sink.Messages[1])));
        Assert.StartsWith($"${talker}", sink.Accepted[0], StringComparison.Ordinal);
    }

    [Fact]
    [HostileRow("gns-modes")]
    public void GNS_has_any_number_of_mode_letters()
    {
        var gns = Feed("gns-modes").Only<Gns>();
        Assert.Equal((false, null), (gns.AnyMode, gns.SatellitesUsed));
        Assert.True(Seal("GNGNS,191434.96,4807.038,N,01131.000,E,NNANNNN,07,1.1,545.4,46.9,,,V").Only<Gns>().AnyMode);
    }

    [Fact]
    [HostileRow("proprietary-P")]
    [HostileRow("proprietary-not-RMB")]
    public void Proprietary_sentences_are_kept_as_such()
    {
        var sink = Collector.Of(Sample("proprietary-P").Replace(" ; ", "\r\n", StringComparison.Ordinal) + "\r\n"
            + Sample("proprietary-not-RMB") + "\r\n" + SentenceWriter.Seal("PXRMC,1,2") + "\r\n");
        Assert.Equal(["PGRMZ", "PSRFTXTVersion GSW3.2.2_3.1.00.12-SDK003P1.01a ", "PGRMB", "PXRMC"], sink.Others);
        Assert.Empty(sink.Rejections);
    }

    [Fact]
    [HostileRow("xdr-many")]
    public void XDR_gives_each_measurement()
    {
        Assert.Equal(
            [
                new Measured('C', -41.3, 'C', "TEMP"), new Measured('P', 0.0123, 'B', "BARO"),
                new Measured('U', 7.41, 'V', "BATT"),
            ],
            Feed("xdr-many").Messages);
        Assert.Equal([new Measured('C', 1.5, '\0', ""), new Measured('U', 7.4, 'V', "")],
            Seal("YXXDR,C,1.5,,,U,7.4,V").Messages);
    }

    [Fact]
    [HostileRow("txt-escape")]
    public void TXT_escapes_stand_for_one_byte()
    {
        string text = "";
        var sink = new LookSink((in s) =>
        {
            Assert.True(Txt.TryDecode(s, out var txt));
            Span<byte> bytes = stackalloc byte[txt.Escaped.Length];
            int length = txt.Unescape(bytes);
            text = $"{txt.Part}/{txt.Parts} {txt.Id} {System.Text.Encoding.Latin1.GetString(bytes[..length])}";
        });
        var stream = new SentenceStream(new Core.Receive.SourceId("radio1"), false);
        stream.Push(default, System.Text.Encoding.Latin1.GetBytes(Sample("txt-escape") + "\n"), ref sink);
        Assert.Equal("1/1 2 temp -41\u00c2\u00b0C", text);
    }
}
