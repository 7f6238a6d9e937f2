using Groundstation.Console.Feeds;
using Groundstation.Core;

namespace Groundstation.Console.Tests;

/// <summary>A session that does nothing but remember what was asked of it.</summary>
internal sealed class FakeFeed : ISnapshotFeed
{
    public List<OperatorAct> Acts { get; } = [];

    public int Pauses { get; private set; }

    public int RateSteps { get; private set; }

    public Action? Changed { get; set; }

    public Snapshot? Newest { get; set; }

    public FeedStatus Status { get; set; } = new() { Recording = "flights/demo", Lines = 4321 };

    public void Post(OperatorAct act) => Acts.Add(act);

    public void TogglePause() => Pauses++;

    public void ChangeRate(int step) => RateSteps += step;

    public List<string> Asked { get; } = [];

    public void StepSecond(int step) => Asked.Add(step.ToString(System.Globalization.CultureInfo.InvariantCulture));

    public void StepFix() => Asked.Add("fix");

    public void MarkLoop() => Asked.Add("loop");

    public List<bool> InSight { get; } = [];

    public void AlarmsInSight(bool inSight) => InSight.Add(inSight);

    public void MakeDebrief() => Asked.Add("debrief");

    public bool GoTo(string typed)
    {
        if (typed == "x") return false;
        Asked.Add("to " + typed);
        return true;
    }
}
