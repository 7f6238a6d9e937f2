using System.Collections.Immutable;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>The newest lines of a source with their verdict; copied cheaply, made printable when looked at.</summary>
internal sealed class LineRing
{
    private const int Lines = 64;
    private const int Width = 128;

    private byte[] _bytes = new byte[Lines * Width];
    private (int Length, RejectReason? Reason)[] _lines = new (int, RejectReason?)[Lines];
    private long _written;

    public void Take(ReadOnlySpan<byte> text, RejectReason? reason)
    {
        int at = (int)(_written++ % Lines);
        text[..Math.Min(text.Length, Width)].CopyTo(_bytes.AsSpan(at * Width));
        _lines[at] = (text.Length, reason);
    }

    /// <summary>The newest lines, newest last.</summary>
    public ImmutableArray<(string Text, RejectReason? Reason)> Newest(int most)
    {
        long first = Math.Max(0, _written - Math.Min(most, Lines));
        var lines = ImmutableArray.CreateBuilder<(string, RejectReason?)>((int)(_written - first));
        for (long i = first; i < _written; i++)
        {
            int at = (int)(i % Lines);
            (int length, RejectReason? reason) = _lines[at];
            string text = Printable.Text(_bytes.AsSpan(at * Width, Math.Min(length, Width)), 3 * Width);
            lines.Add((length > Width ? text + "…" : text, reason));
        }

        return lines.MoveToImmutable();
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public LineRing Copy()
    {
        var copy = (LineRing)MemberwiseClone();
        copy._bytes = [.. _bytes];
        copy._lines = [.. _lines];
        return copy;
    }
}
