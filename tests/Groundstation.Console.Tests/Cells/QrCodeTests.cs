using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Groundstation.Core.Earth;
using Groundstation.Core.Landing;
using Xunit;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Groundstation.Console.Tests.Cells;

/// <summary>The code on the screen, read back by a decoder of another make.</summary>
public class QrCodeTests
{
    [Theory]
    [InlineData(80, 24, false)]
    [InlineData(160, 48, false)]
    [InlineData(160, 48, true)]
    public void The_code_on_the_chase_screen_is_the_landing_estimate(int width, int height, bool ascii)
    {
        Snapshot snapshot = DemoSnapshots.Silence();
        Canvas canvas = new(ascii);
        canvas.Reset(width, height);
        Painter.Paint(canvas, snapshot, new FeedStatus(), new View { Screen = ScreenId.Chase });
        Assert.Equal(QrCode.GeoUri(snapshot.Landing!), Decode(canvas));
    }

    [Fact]
    public void In_ascii_at_80_columns_the_text_stands_in_for_the_code()
    {
        Snapshot snapshot = DemoSnapshots.Silence();
        Canvas canvas = new(true);
        canvas.Reset(80, 24);
        Painter.Paint(canvas, snapshot, new FeedStatus(), new View { Screen = ScreenId.Chase });
        string screen = string.Join('\n', Enumerable.Range(0, 24).Select(y =>
            string.Concat(Enumerable.Range(0, 80).Select(x => canvas.Glyph(x, y)))));
        Assert.Contains(QrCode.GeoUri(snapshot.Landing!), screen, StringComparison.Ordinal);
        Assert.Contains("The code needs", screen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(47.176814, 3.509756, 2480.4, "geo:47.17681,3.50976;u=2480")]
    [InlineData(-47.176814, -103.509756, 99_999, "geo:-47.17681,-103.50976;u=99999")]
    [InlineData(-47.176814, -103.509756, 125_000, "geo:-47.1768,-103.5098;u=125000")]
    [InlineData(-0.000001, 180, 0.2, "geo:0.00000,180.00000;u=1")]
    public void The_uri_is_short_enough_for_the_smallest_screen(double lat, double lon, double u, string uri)
    {
        LandingEstimate landing = DemoSnapshots.Silence().Landing! with
        {
            Position = new GeoPoint(lat, lon),
            Area95 = new SearchArea(u, u, 0),
        };
        Assert.Equal(uri, QrCode.GeoUri(landing));
        Assert.Equal((33, 17), new QrCode(uri).Size(false));
    }

    private static string? Decode(Canvas canvas)
    {
        const int Scale = 4;
        // As a camera sees it: cells of the code black on white, all else grey; half blocks are half a cell.
        int w = canvas.Width * Scale * (canvas.Ascii ? 1 : 2), h = canvas.Height * Scale * (canvas.Ascii ? 2 : 4);
        int perX = w / canvas.Width, perY = h / canvas.Height;
        byte[] grey = new byte[w * h];
        for (int y = 0; y < h; y++)
        {
            for (int x = 0; x < w; x++)
            {
                int cx = x / perX, cy = y / perY;
                bool upper = y % perY < perY / 2;
                bool dark = canvas.Glyph(cx, cy) switch { '█' or '#' => true, '▀' => upper, '▄' => !upper, _ => false };
                grey[y * w + x] = canvas.InkAt(cx, cy) != Ink.Code ? (byte)128 : dark ? (byte)0 : (byte)255;
            }
        }

        RGBLuminanceSource source = new(grey, w, h, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)),
            new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true })?.Text;
    }
}
