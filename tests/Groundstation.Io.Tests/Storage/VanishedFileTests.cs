using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Storage;

/// <summary>Files and folders that somebody deletes under a running station.</summary>
public sealed class VanishedFileTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public void A_deleted_folder_comes_back_with_all_of_its_files_and_the_plan()
    {
        using FlightFolder folder = FlightFolder.Open(_temp["f"], FolderUse.Live);
        folder.KeepPlan(null, FlightPlan.Default);
        folder.RecordCopy("one\r\n"u8);
        folder.Look();
        string plan = File.ReadAllText(_temp["f/plan.toml"]), fixes = File.ReadAllText(_temp["f/fixes.csv"]);
        Directory.Delete(_temp["f"], true);
        folder.RecordCopy("two\r\n"u8);
        folder.Look();
        Assert.Equal("", folder.Trouble);
        Assert.Equal("one\r\ntwo\r\n", File.ReadAllText(_temp["f/received.nmea"]));
        Assert.Equal(plan, File.ReadAllText(_temp["f/plan.toml"]));
        Assert.Equal(fixes, File.ReadAllText(_temp["f/fixes.csv"]));
    }

    [Fact]
    public void While_it_cannot_come_back_that_is_told_and_nothing_is_lost()
    {
        Directory.CreateDirectory(_temp["f"]);
        using AppendFile file = new(_temp["f/log"], fresh: true, writeThrough: true);
        file.Append("one"u8);
        Directory.Delete(_temp["f"], true);
        File.WriteAllText(_temp["f"], "in the way");
        file.Append("two"u8);
        file.Look();
        Assert.StartsWith("the file has vanished (", file.Trouble, StringComparison.Ordinal);
        file.Append("three"u8);
        Assert.StartsWith("the file has vanished (", file.Trouble, StringComparison.Ordinal);
        File.Delete(_temp["f"]);
        file.Look();
        Assert.Equal("", file.Trouble);
        file.Append("four"u8);
        Assert.Equal("onetwothreefour", File.ReadAllText(_temp["f/log"]));
    }
}
