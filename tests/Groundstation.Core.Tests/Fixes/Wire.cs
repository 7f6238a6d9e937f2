using System.Globalization;
using System.Text;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Core.Tests.Fixes;

/// <summary>A source fed with sentences written in the test, without their checksums.</summary>
internal sealed class Wire
{
    public Wire(Instant? start = null, FlightPlan? plan = null)
    {
        Now = start ?? Instant.FromUtc(new DateOnly(2026, 6, 21), TimeSpan.FromHours(9));
        Source = new(new SourceId("radio1"), plan ?? FlightPlan.Default, Fixes.Add);
    }

    public Instant Now { get; private set; }

    public SourceFixes Source { get; }

    public List<Fix> Fixes { get; } = [];

    /// <summary>Hears sentences (without <c>$</c> and checksum) at the present moment.</summary>
    public Wire Hear(params string[] sentences)
    {
        foreach (string sentence in sentences)
            HearBytes(Encoding.Latin1.GetBytes(Closed(sentence) + "\r\n"));
        return this;
    }

    public Wire HearBytes(ReadOnlySpan<byte> bytes)
    {
        Source.Push(Now, bytes);
        return this;
    }

    /// <summary>Lets time go by, with a tick at every whole second.</summary>
    public Wire Wait(double seconds)
    {
        Instant until = Now.PlusSeconds(seconds);
        while (Now < until)
        {
            var next = Instant.FromUnixMilliseconds((Now.UnixMilliseconds / 1000 + 1) * 1000);
            Now = next < until ? next : until;
            if (Now == next)
                Source.Tick(Now);
        }

        return this;
    }

    /// <summary>The fix of the newest completed epoch.</summary>
    public Fix Last => Fixes[^1];

    public static string Closed(string sentence)
    {
        int sum = 0;
        foreach (char c in sentence)
            sum ^= c;
        return string.Create(CultureInfo.InvariantCulture, $"${sentence}*{sum:X2}");
    }

    public static string Gga(
        string time, string talker = "GP", string latitude = "5213.12345", string altitude = "345.2") =>
        $"{talker}GGA,{time},{latitude},N,00012.34567,E,1,10,0.9,{altitude},M,45.9,M,,";

    public static string Rmc(
        string time, string date = "210626", string talker = "GP", string latitude = "5213.12345") =>
        $"{talker}RMC,{time},A,{latitude},N,00012.34567,E,5.0,90.0,{date},,,A";
}
