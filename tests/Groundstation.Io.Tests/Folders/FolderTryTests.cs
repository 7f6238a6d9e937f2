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
        FlightFolder.TryReplay(_temp["new"], "a.nmea");
        Assert.False(Directory.Exists(_temp["new"]));
        Directory.CreateDirectory(_temp["old"]);
        File.WriteAllText(_temp["old/notes.txt"], "mine");
        FlightFolder.TryReplay(_temp["old"], "a.nmea");
        Assert.Equal([_temp["old/notes.txt"]], Directory.GetFileSystemEntries(_temp["old"]));
    }

    [Fact]
    public void What_stands_against_it_is_told_at_once()
    {
        Directory.CreateDirectory(_temp["flown"]);
        File.WriteAllText(_temp["flown/received.nmea"], "x");
        Assert.Contains("holds a flight already", Assert.Throws<UserErrorException>(
            () => FlightFolder.TryReplay(_temp["flown"], "a.nmea")).Message, StringComparison.Ordinal);
        File.WriteAllText(_temp["file"], "");
        Assert.Contains("cannot be made", Assert.Throws<UserErrorException>(
            () => FlightFolder.TryReplay(_temp["file/f"], "a.nmea")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_replay_that_was_killed_is_made_anew_by_the_same_one_and_told_to_another()
    {
        Break("a.nmea");
        File.AppendAllText(_temp["f/landing.csv"], "half a row");
        string message = Assert.Throws<UserErrorException>(() => FlightFolder.OpenReplay(_temp["f"], "b.nmea", TimeProvider.System)).Message;
        Assert.Contains("unfinished replay of " + Path.GetFullPath("a.nmea"), message, StringComparison.Ordinal);
        Assert.Matches(@", begun \d{4}-\d\d-\d\d \d\d:\d\d UTC; delete that folder", message);

        FlightFolder.TryReplay(_temp["f"], "a.nmea");
        using FlightFolder again = FlightFolder.OpenReplay(_temp["f"], "a.nmea", TimeProvider.System);
        Assert.Contains("broken off; it is made anew", again.Anew, StringComparison.Ordinal);
        Assert.False(again.Continues);
        Assert.DoesNotContain("half a row", File.ReadAllText(_temp["f/landing.csv"]), StringComparison.Ordinal);
    }

    [Fact]
    public void A_replay_that_came_to_its_end_and_a_live_flight_are_never_made_anew()
    {
        Break("a.nmea");
        FlightFolder.Open(_temp["f"], FolderUse.Live).Dispose();
        Assert.Contains("holds a flight already", Assert.Throws<UserErrorException>(
            () => FlightFolder.OpenReplay(_temp["f"], "a.nmea", TimeProvider.System)).Message, StringComparison.Ordinal);

        using (FlightFolder whole = FlightFolder.OpenReplay(_temp["g"], "a.nmea", TimeProvider.System)) whole.Finish();
        File.WriteAllText(_temp["g/received.nmea"], "x\r\n");
        Assert.Contains("holds a flight already", Assert.Throws<UserErrorException>(
            () => FlightFolder.TryReplay(_temp["g"], "a.nmea")).Message, StringComparison.Ordinal);
    }

    private void Break(string recording)
    {
        FlightFolder.OpenReplay(_temp["f"], recording, TimeProvider.System).Dispose();
        File.WriteAllText(_temp["f/received.nmea"], "x\r\n");
    }
}
