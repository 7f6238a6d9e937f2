using Microsoft.Win32.SafeHandles;

namespace Groundstation.Io.Storage;

/// <summary>
/// A file that only grows. A write that fails (disk full, stick pulled) does not throw: the bytes wait in memory, up
/// to <see cref="BacklogLimit"/>, and go out in order once the file takes them again; <see cref="Trouble"/> says so
/// meanwhile. Every write goes to its own offset, so that a half-done one is overwritten and no byte comes twice.
/// One thread writes; <see cref="Sync"/> may run on another.
/// </summary>
internal sealed partial class AppendFile : IDisposable
{
    /// <summary>
    /// Bytes kept in memory while the file takes none: 16 MiB, about nine hours of a 1 Hz tracker with six sentences
    /// a second. Above it the newest bytes are dropped and counted: the beginning of a flight is never given up.
    /// </summary>
    public const int BacklogLimit = 16 << 20;

    private const int BlockSize = 64 << 10;

    private readonly byte[] _block = new byte[BlockSize];
    private readonly MemoryStream _backlog = new();
    private SafeFileHandle _handle;
    private int _used;
    private long _length;
    private bool _disposed;
    private bool _dirty;
    private string _vanished = "", _refused = "", _target = "", _mishap = "";

    /// <summary>Opens or creates a file for appending.</summary>
    /// <param name="path">Which.</param>
    /// <param name="fresh">Start empty, whatever was there.</param>
    /// <param name="writeThrough">See <see cref="WriteThrough"/>.</param>
    /// <exception cref="UserErrorException">It cannot be opened.</exception>
    public AppendFile(string path, bool fresh, bool writeThrough)
    {
        Path = path;
        WriteThrough = writeThrough;
        try
        {
            _handle = File.OpenHandle(path, fresh ? FileMode.Create : FileMode.OpenOrCreate, FileAccess.ReadWrite,
                FileShare.ReadWrite | FileShare.Delete);
            _length = RandomAccess.GetLength(_handle);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }

    /// <summary>Where it lies.</summary>
    public string Path { get; private set; }

    /// <summary>Hand every write to the operating system at once; else in blocks of 64 KiB.</summary>
    public bool WriteThrough { get; set; }

    /// <summary>Why it takes no bytes at the moment; empty when all is well.</summary>
    public string Trouble => _vanished.Length > 0 ? _vanished : _refused;

    /// <summary>
    /// Why it still has its own name in place of the one that it was to be moved to; empty when it has that one.
    /// </summary>
    public string Unmoved { get; private set; } = "";

    /// <summary>Bytes given up because the backlog was full, since it last took some.</summary>
    public long Dropped { get; private set; }

    /// <summary>Bytes handed over so far, those that wait included.</summary>
    public long Length => _length + _used + _backlog.Length;

    /// <summary>The last byte in the file; null when it is empty.</summary>
    public byte? LastByte
    {
        get
        {
            Span<byte> one = stackalloc byte[1];
            return _length > 0 && RandomAccess.Read(_handle, one, _length - 1) == 1 ? one[0] : null;
        }
    }

    /// <summary>Appends bytes.</summary>
    public void Append(ReadOnlySpan<byte> bytes)
    {
        ObjectDisposedException.ThrowIf(_disposed, this);
        if (_used > 0 && (WriteThrough || bytes.Length > _block.Length - _used))
            Flush();
        if (WriteThrough || bytes.Length > _block.Length)
        {
            Put(bytes);
            return;
        }

        bytes.CopyTo(_block.AsSpan(_used));
        _used += bytes.Length;
    }

    /// <summary>Hands all that waits to the operating system.</summary>
    public void Flush()
    {
        ReadOnlySpan<byte> waiting = _block.AsSpan(0, _used);
        _used = 0;
        Put(waiting);
    }

    /// <summary>
    /// Tells the disk to keep what the operating system has (fsync). The session does it for the recording once a
    /// second beside the station's thread: a second of ten epochs costs 0.3 ms, now and then 40 (Benchmarks,
    /// <c>sync</c>). So a kill loses nothing that was written, and a power cut at most the last second and what the
    /// disk itself holds back.
    /// </summary>
    public void Sync()
    {
        if (_disposed || !_dirty)
            return;
        _dirty = false;
        try
        {
            RandomAccess.FlushToDisk(_handle);
        }
        catch (Exception e) when (FileTrouble.Is(e) || e is ObjectDisposedException)
        {
            // The next write will meet the same trouble and tell it.
        }
    }

    /// <summary>
    /// Once a second: tries again what waits, and makes the file anew if somebody has deleted it, or its folder, or put
    /// another in its place. Until then the bytes go on into the deleted one, which is read for it.
    /// </summary>
    public void Look()
    {
        if (_refused.Length > 0)
            Put([]);
        if (!File.Exists(Path))
            Restore();
        else if (_refused.Length > 0)
            Reopen();
        else
            LookForOthers();
        if (Unmoved.Length > 0)
            Move();
    }

    /// <summary>What befell the file since this was last asked, in words; empty when nothing did.</summary>
    public string TakeMishap()
    {
        string told = _mishap;
        _mishap = "";
        return told;
    }

    /// <summary>
    /// Moves the file over another, on the same disk: whoever looks sees the old one or the new one, whole. Windows
    /// refuses while a spreadsheet shows the old one: then this one grows on under its own name, and every
    /// <see cref="Look"/> tries again.
    /// </summary>
    public void MoveOver(string path)
    {
        Flush();
        Sync();
        _target = path;
        Move();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (_disposed)
            return;
        Flush();
        Sync();
        if (Unmoved.Length > 0)
            Move();
        _disposed = true;
        _handle.Dispose();
        _backlog.Dispose();
    }

    private void Move()
    {
        try
        {
            File.Move(Path, _target, overwrite: true);
            (Path, Unmoved) = (_target, "");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            Unmoved = $"the old {System.IO.Path.GetFileName(_target)} cannot be replaced ({FileTrouble.Words(e)})";
        }
    }

    private void Put(ReadOnlySpan<byte> bytes)
    {
        try
        {
            if (_backlog.Length > 0)
            {
                Write(_backlog.GetBuffer().AsSpan(0, (int)_backlog.Length));
                _backlog.SetLength(0);
            }

            Write(bytes);
            _refused = "";
            if (Dropped > 0)
                _mishap = $"{Dropped} bytes are lost: the disk took none for so long that the memory for them was full";
            Dropped = 0;
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            _refused = FileTrouble.Words(e);
            Keep(bytes);
        }
    }

    private void Write(ReadOnlySpan<byte> bytes)
    {
        if (bytes.IsEmpty)
            return;
        RandomAccess.Write(_handle, bytes, _length);
        _length += bytes.Length;
        _dirty = true;
    }

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        // Whole pieces only, and nothing after the first one that was dropped until the disk takes some again: one hole
        // is better than many.
        if (Dropped > 0 || _backlog.Length + bytes.Length > BacklogLimit)
            Dropped += bytes.Length;
        else
            _backlog.Write(bytes);
    }
}
