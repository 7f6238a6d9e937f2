using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Sentences;
using Xunit;

namespace Groundstation.Core.Tests.Sentences;

/// <summary>The types that reach <see cref="ISentenceSink.Other"/> and decode on demand.</summary>
public sealed class AuxiliaryMessageTests
{
    private static void With(string body, Look look)
    {
        var sink = new LookSink(look);
        var stream = new SentenceStream(new SourceId("radio1"), false);
        stream.Push(new Instant(0), Encoding.Latin1.GetBytes(SentenceWriter.Seal(body) + "\r\n"), ref sink);
        Assert.True(sink.Looked, body);
    }

    [Fact]
    public void GBS_gives_expected_errors_and_the_failed_satellite()
    {
        With("GPGBS,015509.00,,,,,,,", (in s) =>
        {
            Assert.True(Gbs.TryDecode(s, out var gbs));
            Assert.Equal(new Gbs(new TimeSpan(1, 55, 9), null, null, null, null, null, null, null), gbs);
        });
        With("GPGBS,015509.00,-0.031,-0.186,0.219,19,0.000,-0.354,6.972,1,0", (in s) =>
        {
            Assert.True(Gbs.TryDecode(s, out var gbs));
            Assert.Equal(new Gbs(new TimeSpan(1, 55, 9), -0.031, -0.186, 0.219, 19, 0, -0.354, 6.972), gbs);
            Assert.False(Mda.TryDecode(s, out _));
        });
    }

    [Fact]
    public void DTM_gives_datum_and_offsets() => With("GPDTM,999,,0.08,S,0.07,E,-47.7,W84", (in s) =>
    {
        Assert.True(Dtm.TryDecode(s, out var dtm));
        Assert.Equal(("999", "W84"), (Encoding.ASCII.GetString(dtm.Local), Encoding.ASCII.GetString(dtm.Reference)));
        Assert.Equal((-0.08, 0.07, -47.7), (dtm.LatitudeOffsetMin, dtm.LongitudeOffsetMin, dtm.AltitudeOffsetM));
    });

    [Fact]
    public void HDT_and_THS_give_heading()
    {
        With("HEHDT,274.07,T", (in s) =>
        {
            Assert.True(Heading.TryDecode(s, out var heading));
            Assert.Equal(new Heading(274.07, null), heading);
        });
        With("GPTHS,77.52,E", (in s) =>
        {
            Assert.True(Heading.TryDecode(s, out var heading));
            Assert.Equal(new Heading(77.52, 'E'), heading);
        });
    }

    [Theory]
    [InlineData("WIMWV,214.8,R,10.0,N,A", 10 * 1852.0 / 3600, false)]
    [InlineData("WIMWV,214.8,T,10.0,M,A", 10, true)]
    [InlineData("WIMWV,214.8,T,36.0,K,A", 10, true)]
    [InlineData("WIMWV,214.8,T,10.0,S,A", 4.4704, true)]
    public void MWV_gives_wind_in_metres_a_second(string body, double mps, bool isTrue) => With(body, (in s) =>
    {
        Assert.True(Mwv.TryDecode(s, out var mwv));
        Assert.Equal((214.8, isTrue, true), (mwv.AngleDeg, mwv.IsTrue, mwv.Valid));
        Assert.Equal(mps, mwv.SpeedMps!.Value, 1e-9);
    });

    [Fact]
    public void MDA_gives_pressure_in_pascal()
    {
        With("WIMDA,29.9870,I,1.0155,B,18.3,C,,,43.3,,5.7,C,23.5,T,17.3,M,5.1,N,2.6,M", (in s) =>
        {
            Assert.True(Mda.TryDecode(s, out var mda));
            Assert.Equal(101550, mda.PressurePa!.Value, 1e-6);
            Assert.Equal((18.3, 43.3, 5.7, 23.5, 2.6),
                (mda.AirC, mda.HumidityPercent, mda.DewPointC, mda.WindFromDeg, mda.WindMps));
        });
        With("WIMDA,29.9213,I,,,,,,,,,,,,,,,5.0,N,,", (in s) =>
        {
            Assert.True(Mda.TryDecode(s, out var mda));
            Assert.Equal(101325, mda.PressurePa!.Value, 1.0); // a standard atmosphere is 29.9213 inches of mercury
            Assert.Equal(5 * 1852.0 / 3600, mda.WindMps!.Value, 1e-9);
        });
    }

    [Theory]
    [InlineData("GNTXT,01,02,07,txbuf, alloc", 1, 2, 7, "txbuf, alloc")]
    [InlineData("GPTXT,DEFAULT PVT CONFIGURATION", null, null, null, "DEFAULT PVT CONFIGURATION")]
    [InlineData("GNTXT,01,01,02,a^5Eb^2Gc^", 1, 1, 2, "a^b^2Gc^")]
    public void TXT_gives_numbers_and_text(string body, int? parts, int? part, int? id, string text) =>
        With(body, (in s) =>
    {
        Assert.True(Txt.TryDecode(s, out var txt));
        Assert.Equal((parts, part, id), (txt.Parts, txt.Part, txt.Id));
        byte[] bytes = new byte[100];
        Assert.Equal(text, Encoding.Latin1.GetString(bytes, 0, txt.Unescape(bytes)));
    });

    [Theory]
    [InlineData("GPGBS,015509.00,0.031")]
    [InlineData("GPDTM,W84,,0.0,X,0.0,E,0.0,W84")]
    [InlineData("HEHDT,361.0,T")]
    [InlineData("HEHDT,27x,T")]
    [InlineData("WIMWV,214.8,R,10.0,Q,A")]
    [InlineData("WIMDA,29.9870,X,1.0155,B,18.3,C,,,43.3,,5.7,C,23.5,T,17.3,M,5.1,N,2.6,M")]
    public void Their_fields_are_checked_like_all_others(string body)
    {
        var sink = Collector.Of(SentenceWriter.Seal(body) + "\r\n");
        Assert.Empty(sink.Accepted);
        Assert.True(Assert.Single(sink.Rejections).Reason is RejectReason.FieldCount or RejectReason.FieldGrammar);
    }
}
