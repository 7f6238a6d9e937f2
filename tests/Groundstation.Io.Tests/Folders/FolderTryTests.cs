using Groundstation.Io.Folders;
using Xunit;

namespace Groundstation.Io.Tests.Folders;

/// <summary>A folder for later is tried and left as it was.</summary>
public sealed class FolderTryTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void A_new_folder_is_gone_again_and_an_old_one_is_as_it_was()
    {
        FlightFolder.Try(_temp["new"], FolderUse.Replay);
        Assert.False(Directory.Exists(_temp["new"]));
        Directory.CreateDirectory(_temp["old"]);
        File.WriteAllText(_temp["old/notes.txt"], "mine");
        FlightFolder.Try(_temp["old"], FolderUse.Replay);
        Assert.Equal([_temp["old/notes.txt"]], Directory.GetFileSystemEntries(_temp["old"]));
    }

    [Fact]
    public void What_stands_against_it_is_told_at_once()
    {
        Directory.CreateDirectory(_temp["flown"]);
        File.WriteAllText(_temp["flown/received.nmea"], "x");
        Assert.Contains("holds a flight already", Assert.Throws<UserErrorException>(
            () => FlightFolder.Try(_temp["flown"], FolderUse.Replay)).Message, StringComparison.Ordinal);
        File.WriteAllText(_temp["file"], "");
        Assert.Contains("cannot be made", Assert.Throws<UserErrorException>(
            () => FlightFolder.Try(_temp["file/f"], FolderUse.Replay)).Message, StringComparison.Ordinal);
    }
}
