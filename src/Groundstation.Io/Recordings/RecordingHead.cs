namespace Groundstation.Io.Recordings;

/// <summary>What the first line of a recording tells.</summary>
/// <param name="IsOwn">True for a recording made by the station itself.</param>
/// <param name="Seed">The seed of its draws; null in other programs' logs.</param>
internal readonly record struct RecordingHead(bool IsOwn, ulong? Seed)
{
    /// <summary>Reads it.</summary>
    /// <param name="lines">A scanner at the file's start, of its own.</param>
    /// <param name="path">Where it lies, for the words of an error.</param>
    /// <exception cref="UserErrorException">It is empty, or of a later format.</exception>
    public static RecordingHead Of(LineScanner lines, string path)
    {
        if (!lines.TryNext(out ReadOnlySpan<byte> first, out _))
            throw new UserErrorException($"{path}: holds no line; nothing to replay");
        if (!LineTag.TryRead(first, out ReadOnlySpan<byte> source, out _, out ReadOnlySpan<byte> content)
            || !source.SequenceEqual("station"u8) || !content.StartsWith("$PGSE,OPEN,"u8))
            return default;
        if (!content.StartsWith("$PGSE,OPEN,1,"u8))
            throw new UserErrorException($"{path}:1: recorded by a later version of this program; use that one");
        RecordedEvent opened = StationLine.Read(content, default, new SourceNames());
        return new(true, opened.Kind == RecordedKind.Opened ? opened.Seed : null);
    }
}
