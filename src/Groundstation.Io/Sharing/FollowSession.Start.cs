using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sharing;

/// <summary>What a follower needs before it can begin: the plan, the flight's beginning, its own copy so far.</summary>
public sealed partial class FollowSession
{
    /// <summary>
    /// A line that a kill tore is fetched again: the copy must stay one, so it is cut off instead of closed.
    /// </summary>
    private static void TrimTorn(string recording)
    {
        if (!File.Exists(recording))
            return;
        using FileStream file = new(recording, FileMode.Open, FileAccess.ReadWrite);
        long end = file.Length;
        while (end > 0)
        {
            file.Position = end - 1;
            if (file.ReadByte() == '\n')
                break;
            end--;
        }

        file.SetLength(end);
    }

    /// <summary>The flight whose copy a folder holds; null when there is none yet.</summary>
    private static string? FlightIn(string recording)
    {
        if (!File.Exists(recording))
            return null;
        using FileStream own = File.OpenRead(recording);
        byte[] beginning = new byte[200];
        int n = own.ReadAtLeast(beginning, beginning.Length, throwOnEndOfStream: false);
        return n == 0 ? null : SharedBytes.FlightOf(beginning.AsSpan(0, n))
            ?? throw new UserErrorException($"{recording}: is no recording of this program; name another folder");
    }

    /// <summary>The plan: one's own, or the one kept from before, or the shared one with its text.</summary>
    private (FlightPlan Plan, string? Text) Prepared(string? planFile, string kept)
    {
        if (planFile is not null)
            return (PlanReader.Read(planFile), null);
        if (File.Exists(kept))
            return (PlanReader.Read(kept), null);
        if (!_plan.Task.Wait(_longestStart))
            throw Nothing();
        string text = Encoding.UTF8.GetString(_plan.Task.Result);
        return (PlanReader.Parse(text, "the shared plan"), text);
    }

    private SharedBytes First()
    {
        long from = _time.GetTimestamp();
        while (_time.GetElapsedTime(from) < _longestStart)
        {
            Ask(0);
            if (_queue.TryTake(out SharedBytes next, 200) && next.Offset == 0)
                return next;
        }

        throw Nothing();
    }

    private UserErrorException Nothing() => new(_state.Length > 0 ? $"{_address}: cannot be followed: {_state}"
        : $"{_address}: no flight is shared there; start the sharing station first, with --share");

    private void Rebuild()
    {
        using RecordingReader reader = RecordingReader.Open(_folder.RecordingPath);
        while (reader.Read(out RecordedEvent e))
            _runner.Apply(e);
        _folder.Rebuilt();
        _notes.Add($"{_folder.Path}: the flight goes on from {_runner.Last}");
        _runner.Publish();
    }
}
