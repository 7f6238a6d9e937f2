using System.Text;
using Groundstation.Core.Plan;
using Groundstation.Io.Winds;

namespace Groundstation.Io.Sharing;

/// <summary>
/// The wind and map files that a flight's plan names, as they go over the broker: a line with the name under which the
/// plan names them, then their bytes. A name from outside must be one that a flight folder gives.
/// </summary>
internal static class SharedFiles
{
    private const int LongestName = 200;

    /// <summary>The names in a plan as a flight folder keeps it.</summary>
    public static IReadOnlyList<string> Of(FlightPlan plan) =>
        [.. plan.WindFiles.Select(file => WindFiles.Split(file).Path).Concat(plan.KeepOutFiles).Distinct()];

    /// <summary>The message.</summary>
    public static byte[] Message(string name, byte[] content) => [.. Encoding.UTF8.GetBytes(name + "\n"), .. content];

    /// <summary>Reads a message; null when it is none, or its name is none of ours.</summary>
    public static (string Name, byte[] Content)? Read(byte[] message)
    {
        int end = message.AsSpan(0, Math.Min(message.Length, 4 * LongestName)).IndexOf((byte)'\n');
        return end > 0 && Encoding.UTF8.GetString(message, 0, end) is var name && IsOurs(name)
            ? (name, message[(end + 1)..]) : null;
    }

    /// <summary>
    /// True for <c>winds/NUMBER-NAME</c> and <c>keep-out-NUMBER.KIND</c>: none leads out of the folder. Without its number
    /// a name such as COM3 would be a port on Windows.
    /// </summary>
    public static bool IsOurs(string name)
    {
        string own = name.StartsWith("winds/", StringComparison.Ordinal) ? name["winds/".Length..]
            : name.StartsWith("keep-out-", StringComparison.Ordinal) ? name["keep-out-".Length..] : "";
        return own.Length is > 0 and <= LongestName && char.IsAsciiDigit(own[0])
            && own.AsSpan().TrimStart("0123456789") is ['-' or '.', ..]
            && !own.Any(c => c is '/' or '\\' or ':' || UserErrorException.IsUnseen(c));
    }
}
