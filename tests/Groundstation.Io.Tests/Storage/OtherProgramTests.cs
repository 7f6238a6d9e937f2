using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

/// <summary>An editor or a spreadsheet that saves a file of the flight while the flight goes on.</summary>
public sealed class OtherProgramTests : IDisposable
{
    private readonly TempFolder _temp = new();
    private readonly AppendFile _file;

    public OtherProgramTests()
    {
        _file = new AppendFile(_temp["fixes.csv"], fresh: true, writeThrough: true);
        _file.Append("one"u8);
        _file.Look();
    }

    public void Dispose()
    {
        _file.Dispose();
        _temp.Dispose();
    }

    [Fact]
    public void Saved_in_its_place_the_other_file_is_put_aside_and_the_flights_own_is_whole()
    {
        if (OperatingSystem.IsWindows())
            Assert.Skip("Windows lets nobody replace a file that is open");
        File.WriteAllText(_temp["saved"], "an old state");
        File.Move(_temp["saved"], _temp["fixes.csv"], overwrite: true);
        _file.Append("two"u8);
        _file.Look();
        _file.Append("three"u8);
        Assert.Equal("onetwothree", File.ReadAllText(_temp["fixes.csv"]));
        Assert.Equal("an old state", File.ReadAllText(_temp["fixes.csv.other"]));
        Assert.Contains("fixes.csv.other", _file.TakeMishap(), StringComparison.Ordinal);
        _file.Look();
        Assert.Equal("", _file.TakeMishap());
    }

    [Theory]
    [InlineData("o", "otwo")]
    [InlineData("one and more", "one and moretwo")]
    public void Saved_into_it_the_rows_go_on_behind_what_is_there_and_it_is_told(string saved, string then)
    {
        using (FileStream other = new(_temp["fixes.csv"], FileMode.Create, FileAccess.Write, FileShare.ReadWrite))
            other.Write(Bytes.Of(saved));
        _file.Look();
        _file.Append("two"u8);
        Assert.Equal(then, File.ReadAllText(_temp["fixes.csv"]));
        Assert.Contains("another program", _file.TakeMishap(), StringComparison.Ordinal);
    }
}
