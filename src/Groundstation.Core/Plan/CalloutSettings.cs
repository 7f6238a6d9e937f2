using System.Collections.Immutable;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Plan;

/// <summary>How callouts are worded and how often they come.</summary>
public sealed record CalloutSettings
{
    /// <summary>Call name of the station that speaks.</summary>
    public string From { get; init; } = "Mission Control";

    /// <summary>Call name of the team that listens.</summary>
    public string To { get; init; } = "Chase";

    /// <summary>How places are told.</summary>
    public CoordinateFormat Coordinates { get; init; }

    /// <summary>Bearings from magnetic north instead of true north.</summary>
    public bool MagneticBearings { get; init; }

    /// <summary>Time between two callouts on the way up and when nothing changes any more, s.</summary>
    public double AscentCadenceS { get; init; } = 600;

    /// <summary>Time between two callouts in the descent, s.</summary>
    public double DescentCadenceS { get; init; } = 180;

    /// <summary>
    /// The estimate is called when it has moved by more than this, m; null: by more than its own 50 % area, at least
    /// 500 m.
    /// </summary>
    public double? MovedM { get; init; }
}

/// <summary>The program that reads callouts aloud.</summary>
/// <param name="Program">Its name or path; null: none.</param>
/// <param name="Arguments">
/// Its arguments. One that holds <c>{text}</c> takes the words; with none the program reads them from its standard
/// input.
/// </param>
public sealed record SpeechSettings(string? Program, ImmutableArray<string> Arguments)
{
    /// <summary>What stands for the words in an argument.</summary>
    public const string TextMark = "{text}";

    /// <summary>Nothing is read aloud.</summary>
    public static readonly SpeechSettings None = new(null, []);
}
