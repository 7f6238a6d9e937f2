using Groundstation.Io.Storage;
using nietras.SeparatedValues;

namespace Groundstation.Io.Folders;

/// <summary>
/// One CSV file of the flight folder: RFC 4180, CR LF, header first. Sep quotes; rows go to the file whole.
/// </summary>
internal sealed class CsvLog : IDisposable
{
    private readonly StringWriter _text = new() { NewLine = "\r\n" };
    private readonly SepWriter _csv;
    private readonly AppendFile _file;
    private byte[] _bytes = new byte[1024];

    /// <summary>Starts the file anew and writes its header.</summary>
    public CsvLog(string path, bool writeThrough, params ReadOnlySpan<string> columns)
    {
        _file = new AppendFile(path, fresh: true, writeThrough);
        _csv = Sep.New(',').Writer(o => o with { Escape = true }).To(_text);
        foreach (string column in columns)
            _csv.Header.Add(column);
        _csv.Header.Write();
        Pass();
    }

    /// <summary>The file under it.</summary>
    public AppendFile File => _file;

    /// <summary>Writes one row; every column must be set, in the header's order.</summary>
    public void Row<T>(T from, Fill<T> fill) where T : allows ref struct
    {
        using (SepWriter.Row row = _csv.NewRow())
            fill(row, from);
        Pass();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _csv.Dispose();
        _file.Dispose();
    }

    /// <summary>Fills a row.</summary>
    public delegate void Fill<in T>(SepWriter.Row row, T from) where T : allows ref struct;

    private void Pass()
    {
        _csv.Flush();
        System.Text.StringBuilder text = _text.GetStringBuilder();
        int most = System.Text.Encoding.UTF8.GetMaxByteCount(text.Length);
        if (_bytes.Length < most)
            _bytes = new byte[most];
        int n = 0;
        foreach (ReadOnlyMemory<char> part in text.GetChunks())
            n += System.Text.Encoding.UTF8.GetBytes(part.Span, _bytes.AsSpan(n));
        text.Clear();
        _file.Append(_bytes.AsSpan(0, n));
    }
}
