using System.Globalization;
using System.Reflection;
using System.Text;
using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;

namespace Groundstation.Published.Nmea;

/// <summary>Names the row of hostile.tsv that a test holds the station to.</summary>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
internal sealed class HostileRowAttribute(string id) : Attribute
{
    public string Id { get; } = id;
}

/// <summary>hostile.tsv: 90 published ways in which real sentences go wrong.</summary>
public sealed class HostileTable
{
    private static readonly Dictionary<string, string[]> ById =
        NmeaData.Rows("hostile.tsv").ToDictionary(r => r[0], StringComparer.Ordinal);

    /// <summary>A row's sample with its escapes (<c>\xff \0 \e \r \n \\</c>) resolved, one byte a character.</summary>
    public static string Sample(string id)
    {
        string text = ById[id][1];
        var bytes = new StringBuilder();
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] != '\\')
            {
                bytes.Append(text[i]);
                continue;
            }

            i++;
            bytes.Append(text[i] switch
            {
                '0' => '\0',
                'e' => '\e',
                'r' => '\r',
                'n' => '\n',
                '\\' => '\\',
                'x' => (char)int.Parse(text.AsSpan(i + 1, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture),
                var c => throw new FormatException($"{id}: \\{c}"),
            });
            if (text[i] == 'x') i += 2;
        }

        return bytes.ToString();
    }

    /// <summary>What a stream makes of a row's sample as a line of its own.</summary>
    internal static Collector Feed(string id, bool allowNoChecksum = false) =>
        Collector.Of(Sample(id) + "\r\n", allowNoChecksum);

    /// <summary>What a stream makes of a sentence with its checksum put right.</summary>
    internal static Collector Seal(string body) => Collector.Of(SentenceWriter.Seal(body) + "\r\n");

    [Fact]
    public void Every_row_is_cited_by_a_test()
    {
        var cited = typeof(HostileTable).Assembly.GetTypes()
            .SelectMany(t => t.GetMethods(BindingFlags.Public | BindingFlags.Instance))
            .SelectMany(m => m.GetCustomAttributes<HostileRowAttribute>()).Select(a => a.Id).ToHashSet();
        Assert.Equal(90, ById.Count);
        Assert.Empty(ById.Keys.Except(cited));
        Assert.Empty(cited.Except(ById.Keys));
    }
}
