using Groundstation.Io.Report;
using Xunit;

namespace Groundstation.Io.Tests.Report;

/// <summary>A report never costs anybody a file.</summary>
public sealed class OutputFolderTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void Anothers_file_of_the_same_name_is_left_alone_and_named()
    {
        _temp.Write("flight.gpx", "mine");
        UserErrorException said = Assert.Throws<UserErrorException>(() => new OutputFolder(_temp.Path,
            ["report.html", "flight.gpx"]));
        Assert.Contains("flight.gpx", said.Message, StringComparison.Ordinal);
        Assert.Contains("--out", said.Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(_temp["flight.gpx"]));
        Assert.False(File.Exists(_temp["report.html"]));
    }

    [Fact]
    public void A_second_run_replaces_its_own_removes_what_it_no_longer_makes_and_nothing_else()
    {
        _temp.Write("notes.txt", "mine");
        Write("a.svg", "b.svg");
        Write("b.svg", "c.svg");
        Assert.Equal(["b.svg", "c.svg", "notes.txt", "report-files.txt"],
            Directory.GetFiles(_temp.Path).Select(p => Path.GetFileName(p)!).Order());
        Assert.Equal("2", File.ReadAllText(_temp["b.svg"]));
    }

    [Fact]
    public void A_list_that_was_tampered_with_removes_nothing_outside()
    {
        string outside = _temp.Write("outside.txt", "mine");
        Directory.CreateDirectory(_temp["out"]);
        File.WriteAllText(_temp["out/report-files.txt"], "../outside.txt\n" + outside + "\n\n..\n");
        OutputFolder output = new(_temp["out"], ["a.svg"]);
        output.Write("a.svg", to => to.WriteByte(1));
        Assert.True(File.Exists(outside));
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_told_in_one_line()
    {
        string file = _temp.Write("file", "");
        UserErrorException said = Assert.Throws<UserErrorException>(() =>
            new OutputFolder(Path.Combine(file, "x"), ["a"]));
        Assert.Contains("--out", said.Message, StringComparison.Ordinal);
    }

    private void Write(params string[] names)
    {
        OutputFolder output = new(_temp.Path, names);
        for (int i = 0; i < names.Length; i++)
        {
            byte mark = (byte)('1' + (names[i] == "b.svg" && File.Exists(_temp["b.svg"]) ? 1 : 0));
            output.Write(names[i], to => to.WriteByte(mark));
        }
    }
}
