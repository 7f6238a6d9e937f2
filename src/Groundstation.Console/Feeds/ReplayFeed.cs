using System.Globalization;
using Groundstation.Core;
using Groundstation.Io.Sessions;

namespace Groundstation.Console.Feeds;

/// <summary>A replay as the console sees it.</summary>
internal sealed class ReplayFeed(ReplaySession session, string? folder) : ISnapshotFeed
{
    /// <summary>Rates that the keys step through, in times real time; null: as fast as it goes.</summary>
    private static readonly double?[] Rates = [1, 2, 5, 10, 20, 50, 100, null];

    private readonly string[] _sources = [];

    /// <inheritdoc/>
    public Snapshot? Newest => session.Newest;

    /// <inheritdoc/>
    public FeedStatus Status => new()
    {
        IsReplay = true,
        Paused = session.Paused,
        Rate = session.Rate is { } rate
            ? string.Create(CultureInfo.InvariantCulture, $"{rate:0.##}×") : "as fast as it goes",
        // Whole percents: a status that differs in nothing else need not be painted again.
        Progress = Math.Floor(session.Progress * 100) / 100,
        Ended = session.Ended,
        Recording = folder ?? "",
        Sources = _sources,
    };

    /// <inheritdoc/>
    public void Post(OperatorAct act) => session.Act(act);

    /// <inheritdoc/>
    public void TogglePause() => session.Paused = !session.Paused;

    /// <inheritdoc/>
    public void ChangeRate(int step)
    {
        int at = 0;
        while (at < Rates.Length - 1 && (session.Rate is not { } now || Rates[at] < now)) at++;
        session.Rate = Rates[Math.Clamp(at + step, 0, Rates.Length - 1)];
    }
}
