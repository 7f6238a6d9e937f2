namespace Groundstation.Core.Fixes;

/// <summary>
/// What is heard of the tracker now, apart from whether a fix is believed: when none is, it says where the trouble lies.
/// </summary>
public enum Contact
{
    /// <summary>Nothing, although a receiver is connected.</summary>
    Silent,

    /// <summary>Nothing, because every receiver of ours is disconnected: nobody knows what the tracker does.</summary>
    LinkLost,

    /// <summary>Sentences, but with no new time in them: somebody repeats an old moment.</summary>
    Stalled,

    /// <summary>New epochs, believed or not, or sentences that say the tracker's receiver has no fix.</summary>
    Alive,
}
