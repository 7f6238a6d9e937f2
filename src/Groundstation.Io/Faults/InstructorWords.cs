using System.Globalization;
using Groundstation.Io.Desk;

namespace Groundstation.Io.Faults;

/// <summary>What an instructor types, a line at a time, and what he is answered.</summary>
public static class InstructorWords
{
    /// <summary>All that may be typed.</summary>
    public static string Help { get; } = string.Join('\n',
        "  KIND [SECONDS] [KEY=VALUE …]   puts a fault in now, for so long or for good",
        "  kinds: " + string.Join(", ", FaultKeys.Kinds[..5]) + ",",
        "         " + string.Join(", ", FaultKeys.Kinds[5..]),
        "  keys:  from, ascent_above_m, descent_below_m, for_s, source, share (damaged),",
        "         limit_m (altitude-limit), every_s and by_m (jumps), days (wrong-date)",
        "  such as: silence 300    damaged share=0.3 120    altitude-limit limit_m=12000",
        "  end      ends all faults        list   all faults, as a file that repeats them",
        "  where    how it stands          hold   holds the replay, or lets it go on",
        "  help     this                   quit   leaves; the faults stay");

    /// <summary>Carries a line out; gives the answer, null when the instructor leaves.</summary>
    public static async Task<string?> Answer(string line, TrainingDesk desk)
    {
        string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        switch (words.FirstOrDefault()?.ToLowerInvariant())
        {
            case null or "where":
                return desk.Standing();
            case "help" or "?":
                return Help;
            case "quit" or "exit":
                return null;
            case "list":
                return desk.Faults.Faults.IsEmpty ? "no faults" : desk.Faults.ToText().TrimEnd();
            case "hold":
                bool held = desk.Status.Paused;
                desk.TogglePause();
                return held ? "goes on" : "held";
            case "end":
                return await desk.EndFaults().ConfigureAwait(false);
            default:
                (Fault? fault, string wrong) = Read(words);
                return fault is null ? wrong : await desk.Inject(fault).ConfigureAwait(false);
        }
    }

    /// <summary>A fault as typed; null and what is wrong. Without a beginning it begins now.</summary>
    public static (Fault? Fault, string Wrong) Read(IReadOnlyList<string> words)
    {
        if (!FaultKeys.Kinds.Contains(words[0]))
            return (null, $"'{UserErrorException.OneLine(words[0])}' is not understood; help shows what is");
        FaultKeys keys = new();
        keys.Take("kind", words[0]);
        bool begins = false;
        foreach (string word in words.Skip(1))
        {
            int equals = word.IndexOf('=', StringComparison.Ordinal);
            (string name, string value) = equals > 0 ? (word[..equals], word[(equals + 1)..]) : ("for_s", word);
            if (name == "kind" || !FaultKeys.Names.Contains(name))
                return (null, $"'{UserErrorException.OneLine(word)}' is not understood; help shows what is");
            if (keys.Take(name, value.Trim('"')) is { } allowed)
                return (null, $"{name}: {allowed}");
            begins |= name is "from" or "ascent_above_m" or "descent_below_m";
        }

        if (!begins)
            keys.Take("from", 0.ToString("+0", CultureInfo.InvariantCulture));
        return keys.Fault();
    }
}
