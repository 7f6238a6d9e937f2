using Groundstation.Console.Feeds;
using Groundstation.Core;

namespace Groundstation.Console.Tests;

/// <summary>A session that does nothing but remember what was asked of it.</summary>
internal sealed class FakeFeed : ISnapshotFeed
{
    public List<OperatorAct> Acts { get; } = [];

    public int Pauses { get; private set; }

    public int RateSteps { get; private set; }

    public Snapshot? Newest { get; set; }

    public FeedStatus Status { get; set; } = new() { Recording = "flights/demo", Lines = 4321 };

    public void Post(OperatorAct act) => Acts.Add(act);

    public void TogglePause() => Pauses++;

    public void ChangeRate(int step) => RateSteps += step;
}
