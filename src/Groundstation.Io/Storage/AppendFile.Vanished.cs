using Microsoft.Win32.SafeHandles;

namespace Groundstation.Io.Storage;

/// <content>
/// A file that somebody has deleted is made anew from the one that is still open. An editor or a spreadsheet that saves
/// does the same harm: it puts an old state in the file's place, or writes it into the file.
/// </content>
internal sealed partial class AppendFile
{
    /// <summary>
    /// A stick that was pulled and is there again: the old handle stays dead, but the file is the same.
    /// </summary>
    private void Reopen()
    {
        SafeFileHandle? anew = null;
        try
        {
            anew = File.OpenHandle(Path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete);
            if (RandomAccess.GetLength(anew) is var there && there < _length)
            {
                _mishap = $"{_length - there} bytes were lost with the disk";
                _length = there;
            }

            (SafeFileHandle old, _handle) = (_handle, anew);
            old.Dispose();
            _vanished = "";
            Put([]);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // Not there yet; what waits goes on waiting.
            anew?.Dispose();
        }
    }

    private void LookForOthers()
    {
        try
        {
            (long own, long there) = (RandomAccess.GetLength(_handle), LengthAt(Path));
            if (own != _length || there != own)
            {
                // A network's file system may only be behind with what it tells.
                RandomAccess.FlushToDisk(_handle);
                (own, there) = (RandomAccess.GetLength(_handle), LengthAt(Path));
            }

            if (own != _length)
            {
                _mishap = $"another program has written into it: it has {own} bytes in place of {_length}";
                _length = own;
            }

            if (there == own)
            {
                _vanished = "";
                return;
            }

            string aside = Path + ".other";
            File.Move(Path, aside, overwrite: true);
            _mishap = "another program had put another file in its place; that one is "
                + $"{System.IO.Path.GetFileName(aside)} now";
            Restore();
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            _vanished = $"another program has changed the file ({FileTrouble.Words(e)})";
        }
    }

    // Opened, not asked by its name: of a link that would be the link's own length.
    private static long LengthAt(string path)
    {
        using SafeFileHandle there = File.OpenHandle(path, share: FileShare.ReadWrite | FileShare.Delete);
        return RandomAccess.GetLength(there);
    }

    private void Restore()
    {
        SafeFileHandle? anew = null;
        try
        {
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(Path))!);
            anew = File.OpenHandle(Path, FileMode.CreateNew, FileAccess.ReadWrite,
                FileShare.ReadWrite | FileShare.Delete);
            byte[] copy = new byte[BlockSize];
            for (long at = 0; at < _length;)
            {
                int n = RandomAccess.Read(_handle, copy, at);
                if (n == 0)
                    break;
                RandomAccess.Write(anew, copy.AsSpan(0, n), at);
                at += n;
            }

            (SafeFileHandle old, _handle) = (_handle, anew);
            old.Dispose();
            _dirty = true;
            _vanished = "";
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            _vanished = $"the file has vanished ({FileTrouble.Words(e)})";
            if (anew is null)
                return;
            // Half a copy would be taken for the file.
            anew.Dispose();
            try
            {
                File.Delete(Path);
            }
            catch (Exception again) when (FileTrouble.Is(again))
            {
                // The next look comes across it.
            }
        }
    }
}
