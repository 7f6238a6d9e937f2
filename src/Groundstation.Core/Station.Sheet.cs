using Groundstation.Core.Callouts;
using Groundstation.Core.Landing;

namespace Groundstation.Core;

/// <summary>The search sheet: written when it first becomes due, and again when the estimate has changed.</summary>
public sealed partial class Station
{
    private LandingEstimate? _sheetFor;

    private SheetMatter? Sheet() => Scene() is { } scene
        ? new(_plan, scene, _terrain?.Invoke(scene.Landing.Position)) : null;

    private void ConsiderSheet(CalloutScene scene)
    {
        if (SearchSheet.Due(scene) && (_sheetFor is null || SearchSheet.Differs(_sheetFor, scene.Landing))) WriteSheet();
    }

    private bool WriteSheet()
    {
        if (Sheet() is not { } matter) return false;
        _sheetFor = matter.Scene.Landing;
        _log.SearchSheet(SearchSheet.Compose(matter));
        Happened("Search sheet: written for " + matter.Scene.Landing.Position);
        return true;
    }
}
