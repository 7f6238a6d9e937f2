using Groundstation.Core.Receive;

namespace Groundstation.Io.Sources;

/// <summary>
/// Takes what a source gives. Called from the sources' own threads, one call at a time for each source.
/// </summary>
public interface ISourceSink
{
    /// <summary>
    /// Bytes, cut anywhere; the span is good during the call only. May wait when the station lags behind.
    /// </summary>
    void Bytes(SourceId source, ReadOnlySpan<byte> bytes);

    /// <summary>The link changed, or there is something new to say about it.</summary>
    void Link(SourceId source, LinkState state, string why);
}
