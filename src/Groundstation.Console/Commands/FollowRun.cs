using Groundstation.Console.Feeds;
using Groundstation.Io.Sessions;
using Groundstation.Io.Sharing;
using Groundstation.Io.Sources;

namespace Groundstation.Console.Commands;

/// <summary><c>watch --from mqtt:…</c>: a flight that another station shares.</summary>
internal static class FollowRun
{
    /// <summary>Follows until the operator quits or a signal comes.</summary>
    public static void Run(string typed, string folder, string? planFile, bool screen, bool ascii, TextWriter output)
    {
        MqttAddress address = (MqttAddress)SourceAddress.Parse(typed);
        using FollowSession session =
            new(address, folder, planFile, TimeProvider.System, screen ? SessionRun.SnapshotEvery : null);
        if (screen)
            SessionRun.OnScreen(new FollowFeed(session, folder, typed), session.Run, ascii);
        else
            SessionRun.Headless(session.Run);
        output.Write(HeadlessSummary.Text(session.Outcome()));
    }
}
