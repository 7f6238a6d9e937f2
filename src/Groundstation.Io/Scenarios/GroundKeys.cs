using Groundstation.Core.Simulation;

namespace Groundstation.Io.Scenarios;

/// <summary>Blocks of a scenario file for what happens on the ground: chase car, its receiver, the laptop's disk.</summary>
internal static class GroundKeys
{
    /// <summary>The blocks; each may stand several times.</summary>
    public static readonly ScenarioRow[] Rows =
    [
        new("chase",
            [
                ("at_s", -7200, 172_800, "s after launch"),
                ("latitude_deg", -90, 90, "degrees"),
                ("longitude_deg", -180, 180, "degrees"),
            ], true, (s, v) => s.Ground.Chase is [.., var before] && before.AtS >= v[0]
                ? (s, "each at_s must be later than the one before")
                : (s with
                {
                    Ground = s.Ground with
                    {
                        Chase = s.Ground.Chase.Add(new(v[0]!.Value, new(v[1]!.Value, v[2]!.Value))),
                    },
                }, null)),
        new("chase_gap",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("for_s", 1, 172_800, "s"),
            ], true, (s, v) => s.Ground.ChaseGaps is [.., var before] && before.FromS + before.ForS >= v[0]
                ? (s, "each gap must begin after the end of the one before")
                : (s with
                {
                    Ground = s.Ground with { ChaseGaps = s.Ground.ChaseGaps.Add(new(v[0]!.Value, v[1]!.Value)) },
                }, null)),
        new("disk",
            [
                ("from_s", -7200, 172_800, "s after launch"),
                ("free_mb", 0, 1e7, "MB"),
            ], true, (s, v) => s.Ground.Disk is [.., var before] && before.FromS >= v[0]
                ? (s, "each from_s must be later than the one before")
                : (s with { Ground = s.Ground with { Disk = s.Ground.Disk.Add(new(v[0]!.Value, v[1]!.Value)) } }, null)),
    ];
}
