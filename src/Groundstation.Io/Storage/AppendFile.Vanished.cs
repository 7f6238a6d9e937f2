using Microsoft.Win32.SafeHandles;

namespace Groundstation.Io.Storage;

/// <content>A file that somebody has deleted is made anew from the one that is still open.</content>
internal sealed partial class AppendFile
{
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
