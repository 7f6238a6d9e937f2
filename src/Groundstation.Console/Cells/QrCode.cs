using System.Collections;
using System.Globalization;
using Groundstation.Core.Landing;
using QRCoder;

namespace Groundstation.Console.Cells;

/// <summary>
/// A QR code on the screen: two modules a cell as half blocks, or two cells a module in ASCII, with the four modules of
/// blank around it that readers need (ISO/IEC 18004).
/// </summary>
internal sealed class QrCode
{
    private readonly List<BitArray> _dark;

    /// <summary>The code of a text.</summary>
    public QrCode(string text)
    {
        // The lowest of the four levels of correction: a screen has no dirt, and the code must fit into 80×24.
        using QRCodeData data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.L);
        _dark = [.. data.ModuleMatrix.Select(row => new BitArray(row))];
    }

    /// <summary>Modules on a side, the blank ones around it counted.</summary>
    public int Side => _dark.Count;

    /// <summary>Cells it takes.</summary>
    public (int Width, int Height) Size(bool ascii) => ascii ? (2 * Side, Side) : (Side, (Side + 1) / 2);

    /// <summary>
    /// The <c>geo:</c> URI (RFC 5870) of a landing estimate, WGS 84, with the larger half axis of the 95 % area as its
    /// uncertainty in metres. At most 32 characters, which a code of 25 modules holds: five decimals (1 m), four where the
    /// uncertainty is 100 km.
    /// </summary>
    public static string GeoUri(LandingEstimate landing)
    {
        double metres = Math.Max(1, Math.Round(landing.Area95.MajorM));
        string decimals = metres < 100_000 ? "F5" : "F4";
        string Degrees(double value) => Plain(value.ToString(decimals, CultureInfo.InvariantCulture));
        return string.Create(CultureInfo.InvariantCulture,
            $"geo:{Degrees(landing.Position.LatitudeDeg)},{Degrees(landing.Position.LongitudeDeg)};u={metres:F0}");
    }

    /// <summary>Draws it; false when there is no room.</summary>
    public bool Draw(Pane pane)
    {
        bool ascii = pane.Canvas.Ascii;
        (int width, int height) = Size(ascii);
        if (width > pane.Width || height > pane.Height) return false;
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                char glyph = ascii ? Dark(x / 2, y) ? '#' : ' ' : (Dark(x, 2 * y), Dark(x, 2 * y + 1)) switch
                {
                    (true, true) => '█',
                    (true, false) => '▀',
                    (false, true) => '▄',
                    _ => ' ',
                };
                pane.Put(x, y, glyph, Ink.Code);
            }
        }

        return true;
    }

    private bool Dark(int x, int y) => y < Side && _dark[y][x];

    // "-0.00000" is a number for the standard, but not for every phone.
    private static string Plain(string text) => text.AsSpan().IndexOfAnyExcept('-', '0', '.') < 0 ? text.TrimStart('-') : text;
}
