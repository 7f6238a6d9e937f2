namespace Groundstation.Io.Recordings;

/// <summary>
/// Cuts the bytes of one source into the pieces that are recorded and then handed to the core: a line with CR LF, or a
/// stretch whose line end has not come. CR, LF, CR LF and CR CR LF all become CR LF; empty lines vanish. However the
/// bytes are chunked, the pieces are the same.
/// </summary>
public sealed class LineAssembler
{
    /// <summary>Bytes of a line after which it is cut: NMEA allows 82, real receivers send up to 205.</summary>
    public const int LineCap = 1024;

    private readonly byte[] _piece = new byte[LineCap + 2];
    private int _count;

    // True after a stretch was given without a line end: a line end that follows belongs to it and is no empty line.
    private bool _open;

    /// <summary>True while bytes wait for their line end.</summary>
    public bool Pending => _count > 0;

    /// <summary>
    /// Takes bytes up to the end of the next piece.
    /// </summary>
    /// <param name="chunk">Bytes as they came, not empty.</param>
    /// <param name="piece">The piece, good until the next call; empty when none is complete yet.</param>
    /// <returns>How many bytes of <paramref name="chunk"/> were taken; call again with the rest.</returns>
    public int Take(ReadOnlySpan<byte> chunk, out ReadOnlyMemory<byte> piece)
    {
        int used = 0;
        while (used < chunk.Length)
        {
            ReadOnlySpan<byte> rest = chunk[used..];
            int end = rest.IndexOfAny((byte)'\r', (byte)'\n');
            int content = end < 0 ? rest.Length : end;
            int room = Math.Min(content, LineCap - _count);
            rest[..room].CopyTo(_piece.AsSpan(_count));
            _count += room;
            used += room;
            if (room < content)
            {
                piece = Stretch();
                return used;
            }

            if (end < 0)
                break;
            used++;
            if (_count > 0 || _open)
            {
                _piece[_count] = (byte)'\r';
                _piece[_count + 1] = (byte)'\n';
                piece = _piece.AsMemory(0, _count + 2);
                _count = 0;
                _open = false;
                return used;
            }
        }

        piece = default;
        return used;
    }

    /// <summary>
    /// Gives what waits without its line end: when the link is lost, after half a second without a byte, at the end.
    /// </summary>
    public bool TryFlush(out ReadOnlyMemory<byte> piece)
    {
        piece = _count > 0 ? Stretch() : default;
        return !piece.IsEmpty;
    }

    private ReadOnlyMemory<byte> Stretch()
    {
        ReadOnlyMemory<byte> piece = _piece.AsMemory(0, _count);
        _count = 0;
        _open = true;
        return piece;
    }
}
