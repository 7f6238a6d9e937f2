using System.Collections.Immutable;

namespace Groundstation.Core.Readiness;

/// <summary>
/// Ready to launch? What the station verifies and what people have confirmed, at one moment. A function of the
/// snapshot.
/// </summary>
/// <param name="Station">What the station sees.</param>
/// <param name="People">What people confirm.</param>
public sealed record LaunchReadiness(ImmutableArray<LaunchCheck> Station, ImmutableArray<LaunchCheck> People)
{
    /// <summary>Judges.</summary>
    public static LaunchReadiness Of(Snapshot s) => new([.. StationChecks.Of(s)], [.. PeopleItems.Of(s)]);

    /// <summary>True when nothing is open; doubts remain with the people who decide.</summary>
    public bool Ready => !All.Any(c => c.State == CheckState.Open);

    /// <summary>What stands against a launch.</summary>
    public IEnumerable<LaunchCheck> Open => All.Where(c => c.State == CheckState.Open);

    /// <summary>What deserves a second look.</summary>
    public IEnumerable<LaunchCheck> Doubtful => All.Where(c => c.State == CheckState.Doubtful);

    /// <summary>In one line: open points, then doubtful ones, by their ids.</summary>
    public string Standing
    {
        get
        {
            string open = string.Join(", ", Open.Select(c => c.Id));
            string doubtful = string.Join(", ", Doubtful.Select(c => c.Id));
            return (open.Length > 0 ? "open: " + open : "nothing open")
                + (doubtful.Length > 0 ? "; doubtful: " + doubtful : "; nothing doubtful");
        }
    }

    private IEnumerable<LaunchCheck> All => Station.Concat(People);
}
