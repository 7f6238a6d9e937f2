using System.Globalization;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Desk;

/// <summary>What a jump goes to.</summary>
public enum SeekKind
{
    /// <summary>So many seconds on or back.</summary>
    By,

    /// <summary>A time since launch.</summary>
    Mission,

    /// <summary>A time of day, UTC.</summary>
    TimeOfDay,

    /// <summary>The beginning of the recording.</summary>
    Start,

    /// <summary>Shortly before an alarm is raised.</summary>
    Alarm,

    /// <summary>Shortly before the next alarm.</summary>
    NextAlarm,
}

/// <summary>Where a jump goes, as typed.</summary>
/// <param name="Kind">What it goes by.</param>
/// <param name="Time">The time, for kinds that have one.</param>
/// <param name="Alarms">Ids of the alarms of which the first counts.</param>
public sealed record SeekTarget(SeekKind Kind, TimeSpan Time = default, params string[] Alarms)
{
    /// <summary>What may be typed.</summary>
    public const string Forms = "T+1:10:00, 10:58:18 (UTC), -30, +2:00, start, launch, burst, silence, landed, alarm";

    /// <summary>Reads what was typed; null when it is none of <see cref="Forms"/>.</summary>
    public static SeekTarget? Read(string typed)
    {
        string text = typed.Trim().ToLowerInvariant();
        SeekTarget? word = text switch
        {
            "start" => new(SeekKind.Start),
            "launch" => new(SeekKind.Alarm, default, "launch"),
            "burst" => new(SeekKind.Alarm, default, "burst"),
            "silence" => new(SeekKind.Alarm, default, "no-bytes", "no-fix", "altitude-limit", "link-lost"),
            "landed" => new(SeekKind.Alarm, default, "landed"),
            "alarm" => new(SeekKind.NextAlarm),
            _ => null,
        };
        if (word is not null)
            return word;
        if (text is ['t', '+' or '-', ..] && Clock(text[2..]) is { } mission)
            return new(SeekKind.Mission, text[1] == '-' ? -mission : mission);
        if (text is ['+' or '-', ..] && Clock(text[1..]) is { } by)
            return new(SeekKind.By, text[0] == '-' ? -by : by);
        return text.Contains(':', StringComparison.Ordinal) && Clock(text.TrimEnd('z')) is { } day
            && day < TimeSpan.FromDays(1) ? new(SeekKind.TimeOfDay, day) : null;
    }

    /// <summary>Seconds, m:ss or h:mm:ss; null when it is neither.</summary>
    private static TimeSpan? Clock(string text)
    {
        double seconds = 0;
        string[] parts = text.Split(':');
        if (parts.Length > 3)
            return null;
        for (int i = 0; i < parts.Length; i++)
        {
            if (!double.TryParse(parts[i], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture,
                out double part) || (i > 0 && part >= 60))
                return null;
            seconds = seconds * 60 + part;
        }

        return seconds < 1e6 ? TimeSpan.FromSeconds(seconds) : null;
    }
}
