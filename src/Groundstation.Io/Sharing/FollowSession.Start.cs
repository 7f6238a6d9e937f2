using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Sharing;

/// <summary>What a follower needs before it can begin: the plan, the flight's beginning, its own copy so far.</summary>
public sealed partial class FollowSession
{
    private static ReadOnlySpan<byte> _first => "\\s:station,c:"u8;

    /// <summary>The flight whose copy a folder holds; null when there is none yet, or only a torn first line.</summary>
    private static string? FlightIn(string recording)
    {
        if (!File.Exists(recording))
            return null;
        using FileStream own = new(recording, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        byte[] beginning = new byte[200];
        beginning = beginning[..own.ReadAtLeast(beginning, beginning.Length, throwOnEndOfStream: false)];
        bool torn = !beginning.Contains((byte)'\n') && (beginning.AsSpan().StartsWith(_first)
            || _first.StartsWith(beginning));
        return torn ? null : SharedBytes.FlightOf(beginning)
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
        FlightPlan plan = PlanReader.Parse(text, "the shared plan");
        IReadOnlyList<string> named = SharedFiles.Of(plan);
        if (named.FirstOrDefault(name => !SharedFiles.IsOurs(name)) is { } strange)
            throw new UserErrorException($"{_address}: its plan names a file out of its folder ({strange})");
        long from = _time.GetTimestamp();
        while (named.FirstOrDefault(name => !_files.ContainsKey(name)) is { } missing)
        {
            if (_time.GetElapsedTime(from) > _longestStart)
                throw new UserErrorException($"{_address}: its plan names {missing}, which is not shared; name a plan "
                    + "of your own with --plan");
            Thread.Sleep(50);
        }

        return (plan, text);
    }

    /// <summary>Keeps the shared plan and the files that it names, and reads it with them.</summary>
    private FlightPlan Keep(string text, FlightPlan plan, string kept)
    {
        foreach (string name in SharedFiles.Of(plan))
        {
            string path = Path.Combine(_folder.Path, name);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, _files[name]);
        }

        File.WriteAllText(kept, text);
        return PlanReader.Read(kept);
    }

    /// <summary>Tiles are too large to be shared: without them here the estimates differ by the ground.</summary>
    private FlightPlan WithTerrainHere(FlightPlan plan, string? planFile)
    {
        if (planFile is not null || plan.TerrainFolder is not { } tiles || Directory.Exists(tiles))
            return plan;
        _notes.Add($"{tiles}: this terrain folder of the shared plan is not here: landing places differ by the ground; "
            + "copy it there, or name a plan of your own with --plan");
        return plan with { TerrainFolder = null };
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
}
