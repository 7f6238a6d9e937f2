using Groundstation.Core;
using Groundstation.Core.Receive;
using Groundstation.Io.Sessions;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>The hand-over from the sources' threads and the screen to the station's.</summary>
public sealed class ArrivalQueueTests
{
    [Fact]
    public void An_act_is_kept_though_the_station_lags_thousands_of_lines_behind()
    {
        using ArrivalQueue queue = new() { Clock = new HostClock(TimeProvider.System) };
        for (int i = 0; i < 4096; i++)
            queue.Link(SourceId.Chase, LinkState.Up, "");
        queue.Act(new OperatorAct("note", "seen"));
        List<OperatorAct> acts = [];
        int links = 0;
        while (queue.TryTake(out Incoming next))
        {
            if (next.Act is { } act)
                acts.Add(act);
            else
                links++;
        }

        Assert.Equal(new OperatorAct("note", "seen"), Assert.Single(acts));
        Assert.Equal(4096, links);
        Assert.True(queue.IsEmpty);
    }
}
