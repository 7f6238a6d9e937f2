using Groundstation.Io.Storage;

namespace Groundstation.Io.Folders;

/// <summary>
/// Keeps a second station out of a flight folder for as long as it is not disposed, also after a kill no longer than the
/// process lives: the lock belongs to the open file, not to its being there. The file stays, because deleting it would
/// let a third station lock a new one of the same name.
/// </summary>
internal sealed class FolderLock : IDisposable
{
    private const string Name = "station.lock";

    private readonly FileStream _held;

    private FolderLock(FileStream held) => _held = held;

    /// <summary>Makes a folder where there is none, and locks it.</summary>
    /// <exception cref="UserErrorException">It cannot be made or written, or is in use.</exception>
    public static FolderLock Take(string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{folder}: this folder cannot be made ({FileTrouble.Words(e)})", e);
        }

        try
        {
            return new FolderLock(new FileStream(Path.Combine(folder, Name), FileMode.OpenOrCreate,
                FileAccess.ReadWrite, FileShare.None));
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException(e is IOException io && FileTrouble.IsInUse(io)
                ? $"{folder}: another station is writing this flight; stop it or name another folder with --flight"
                : $"{folder}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _held.Dispose();
}
