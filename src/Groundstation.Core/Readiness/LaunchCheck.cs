using Groundstation.Core.Quantities;

namespace Groundstation.Core.Readiness;

/// <summary>How one point of the launch checklist stands.</summary>
public enum CheckState
{
    /// <summary>As it should be.</summary>
    Ready,

    /// <summary>Worth a second look; the launch may go on.</summary>
    Doubtful,

    /// <summary>Not done, or not good enough to launch.</summary>
    Open,
}

/// <summary>One point of the launch checklist.</summary>
/// <param name="Id">One word, as acts and logs name it.</param>
/// <param name="Label">What it is about.</param>
/// <param name="State">How it stands.</param>
/// <param name="Detail">The figure, or what to do.</param>
public sealed record LaunchCheck(string Id, string Label, CheckState State, Saying Detail);

/// <summary>What the operator decided, and how the checklist stood then.</summary>
/// <param name="Utc">When.</param>
/// <param name="Go">True: launch.</param>
/// <param name="Standing">The checklist in one line.</param>
public sealed record LaunchDecision(Instant Utc, bool Go, string Standing);
