using System.Globalization;
using System.Text;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Tests.Inspection;

/// <summary>Writes a log of GGA and RMC, one epoch a call.</summary>
internal sealed class MadeRecording
{
    private readonly StringBuilder _text = new();

    /// <summary>Lines so far.</summary>
    public int Lines { get; private set; }

    public static string Sentence(string body)
    {
        byte sum = Encoding.ASCII.GetBytes(body).Aggregate((a, b) => (byte)(a ^ b));
        return string.Create(CultureInfo.InvariantCulture, $"${body}*{sum:X2}");
    }

    /// <summary>One epoch: 3 m up at each second, at one place.</summary>
    /// <param name="utc">Its UTC.</param>
    /// <param name="heightM">Its height; null: blank.</param>
    /// <param name="date">The RMC's date field; null: that of <paramref name="utc"/>.</param>
    /// <param name="valid">With a fix.</param>
    /// <param name="prefix">In front of each sentence.</param>
    public MadeRecording Epoch(Instant utc, double? heightM, string? date = null, bool valid = true, string prefix = "")
    {
        DateTime at = utc.ToDateTime();
        string time = at.ToString("HHmmss.ff", CultureInfo.InvariantCulture);
        date ??= at.ToString("ddMMyy", CultureInfo.InvariantCulture);
        string place = valid ? "4815.00000,N,03030.00000,W" : ",,,";
        Line(prefix + Sentence(string.Create(CultureInfo.InvariantCulture,
            $"GPGGA,{time},{place},{(valid ? 1 : 0)},{(valid ? "09,0.9" : "00,99.9")},{heightM:F1},M,50.1,M,,")));
        (char status, char mode) = valid ? ('A', 'A') : ('V', 'N');
        return Line(prefix + Sentence($"GPRMC,{time},{status},{place},0.5,90.0,{date},,,{mode}"));
    }

    public MadeRecording Line(string line, string end = "\r\n")
    {
        _text.Append(line).Append(end);
        Lines++;
        return this;
    }

    public override string ToString() => _text.ToString();
}
