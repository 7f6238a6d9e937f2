using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

public class DiskWatchTests
{
    [Fact]
    public void It_is_told_at_first_and_scarce_room_when_it_changes_by_a_twentieth()
    {
        double free = 50_000;
        DiskWatch watch = new(".", 200, () => free);
        List<string?> told = [];
        foreach (double mb in (double[])[50_000, 2500, 1900, 1890, 1500, 1490, 150, 149, 0, 0, 3000, 40_000])
        {
            free = mb;
            told.Add(watch.Look());
        }

        Assert.Equal(["50000", null, "1900", null, "1500", null, "150", null, "0", null, "3000", null], told);
    }

    [Fact]
    public void A_folder_that_is_gone_is_no_error()
    {
        Assert.Null(new DiskWatch("/nowhere/at/all", 200).Look());
    }
}
