using System.Collections.Immutable;
using System.Globalization;
using Groundstation.Core.Plan;
using Groundstation.Io.Winds;

namespace Groundstation.Io.Folders;

/// <summary>
/// The wind files of a flight, kept beside its plan: a replay must find the winds that were in force.
/// </summary>
internal static class KeptWinds
{
    private const string Folder = "winds";

    /// <summary>Copies a plan's wind files into a flight folder.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="flight">The flight folder.</param>
    /// <returns>What the kept plan names them: relative, in the order of the plan, stations after a #.</returns>
    public static ImmutableArray<string> Copy(FlightPlan plan, string flight)
    {
        if (plan.WindFiles.IsEmpty) return [];
        string folder = Path.Combine(flight, Folder);
        Directory.CreateDirectory(folder);
        return [.. plan.WindFiles.Select((named, i) =>
        {
            (string path, string? station) = WindFiles.Split(named);
            // Files of one name may come from several folders.
            string number = (i + 1).ToString(CultureInfo.InvariantCulture) + "-", name = Path.GetFileName(path);
            string kept = Path.Combine(folder, name.StartsWith(number, StringComparison.Ordinal)
                ? name : number + name);
            if (Path.GetFullPath(kept) != Path.GetFullPath(path)) File.Copy(path, kept, overwrite: true);
            return $"{Folder}/{Path.GetFileName(kept)}{(station is null ? "" : "#" + station)}";
        })];
    }
}
