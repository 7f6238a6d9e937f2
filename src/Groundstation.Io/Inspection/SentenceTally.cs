using System.Collections.Immutable;
using Groundstation.Core.Sentences;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Counts sentences by address and gathers what the receiver says about itself. Nothing is allocated for a sentence
/// whose like was seen before, and the number of addresses and texts kept is bounded.
/// </summary>
internal sealed class SentenceTally
{
    private const int MostAddresses = 200;
    private const int MostTexts = 6;
    private const int LongestText = 60;

    /// <summary>
    /// A proprietary sentence with more contents than this is a measurement. Identification comes in a few fixed
    /// sentences, be they sent once or again and again.
    /// </summary>
    private const int MostContents = 8;

    private sealed class Entry
    {
        public long Count;
        public int Order;
        public bool IsText;
        public readonly List<byte[]> Contents = [];
        public readonly List<string> Words = [];
    }

    private readonly Dictionary<string, Entry> _entries = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Entry>.AlternateLookup<ReadOnlySpan<char>> _lookup;
    private readonly SortedSet<string> _systems = new(StringComparer.Ordinal);
    private long _beyond;

    public SentenceTally() => _lookup = _entries.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>All accepted.</summary>
    public long Accepted { get; private set; }

    /// <summary>One accepted sentence.</summary>
    public void Add(in Sentence sentence)
    {
        Accepted++;
        Span<char> address = stackalloc char[20];
        int length = Math.Min(sentence.Address.Length, address.Length);
        for (int i = 0; i < length; i++)
            address[i] = (char)sentence.Address[i];
        address = address[..length];
        if (!_lookup.TryGetValue(address, out Entry? entry))
        {
            if (_entries.Count == MostAddresses)
            {
                _beyond++;
                return;
            }

            entry = new() { Order = _entries.Count };
            _lookup[address] = entry;
        }

        entry.Count++;
        if (Txt.TryDecode(sentence, out Txt text))
        {
            entry.IsText = true;
            Keep(entry, text.Escaped, text);
        }
        else if (address.Length > 0 && address[0] == 'P')
        {
            Keep(entry, Body(sentence), default);
        }
    }

    /// <summary>The system that a GSA names (NMEA 4.11).</summary>
    public void AddSystem(int? systemId)
    {
        if (systemId is { } id && SystemOf(id) is { } name)
            _systems.Add(name);
    }

    /// <summary>Sentences by address, most frequent first.</summary>
    public ImmutableArray<SentenceCount> Sentences()
    {
        IEnumerable<SentenceCount> counts = _entries.Select(e => new SentenceCount(e.Key, e.Value.Count));
        if (_beyond > 0)
            counts = counts.Append(new("others", _beyond));
        return [.. counts.OrderByDescending(s => s.Count).ThenBy(s => s.Address, StringComparer.Ordinal)];
    }

    /// <summary>Talkers, most frequent first.</summary>
    public ImmutableArray<string> Talkers() => [.. _entries
        .Where(e => FitnessJudge.Formatter(e.Key).Length > 0)
        .GroupBy(e => e.Key[..2]).Select(g => (Talker: g.Key, Count: g.Sum(e => e.Value.Count)))
        .OrderByDescending(g => g.Count).ThenBy(g => g.Talker, StringComparer.Ordinal).Select(g => g.Talker)];

    /// <summary>Satellite systems, by the GSA's system ids and the talkers.</summary>
    public ImmutableArray<string> Systems() =>
        [.. _systems.Union(Talkers().Select(SystemOf).OfType<string>()).Order(StringComparer.Ordinal)];

    /// <summary>Texts and proprietary sentences that are for reading, in the order first heard.</summary>
    public ImmutableArray<string> Identification() => [.. _entries.Values
        .Where(e => e.IsText || e.Contents.Count <= MostContents).OrderBy(e => e.Order)
        .SelectMany(e => e.Words).Distinct().Take(MostTexts)];

    private static void Keep(Entry entry, ReadOnlySpan<byte> content, in Txt text)
    {
        if (entry.Contents.Count > MostContents)
            return;
        foreach (byte[] known in entry.Contents)
            if (content.SequenceEqual(known))
                return;
        entry.Contents.Add(content.ToArray());
        if (!IsReadable(content, entry.IsText ? 0 : content.IndexOf((byte)',')))
            return;
        Span<byte> bytes = stackalloc byte[text.Escaped.Length];
        entry.Words.Add(Printable.Text(entry.IsText ? bytes[..text.Unescape(bytes)] : content, LongestText));
    }

    /// <summary>Three letters in a row after the address: figures and hexadecimal dumps are not for reading.</summary>
    private static bool IsReadable(ReadOnlySpan<byte> content, int from)
    {
        int run = 0;
        for (int i = from < 0 ? content.Length : from; i < content.Length && run < 3; i++)
            run = char.IsAsciiLetter((char)content[i]) ? run + 1 : 0;
        return run >= 3;
    }

    /// <summary>The sentence without <c>$</c> and checksum.</summary>
    private static ReadOnlySpan<byte> Body(in Sentence sentence)
    {
        ReadOnlySpan<byte> text = sentence.Text[1..];
        int star = text.LastIndexOf((byte)'*');
        return star < 0 ? text : text[..star];
    }

    private static string? SystemOf(int id) => id switch
    {
        1 => "GPS",
        2 => "GLONASS",
        3 => "Galileo",
        4 => "BeiDou",
        5 => "QZSS",
        6 => "NavIC",
        _ => null,
    };

    private static string? SystemOf(string talker) => talker switch
    {
        "GP" => "GPS",
        "GL" => "GLONASS",
        "GA" => "Galileo",
        "GB" or "BD" => "BeiDou",
        "GQ" or "QZ" => "QZSS",
        "GI" => "NavIC",
        _ => null,
    };
}
