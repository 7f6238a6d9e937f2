namespace Groundstation.Core.Fixes;

/// <summary>
/// A row of refused fixes that fit each other but not the track, and how long it must last until it is believed instead.
/// <para>
/// One of the two is wrong, and the gates of <see cref="Track"/> hold all that a flight can do. Receivers that regain their
/// satellites put their place right by some metres to some hundred; rows that are farther off and yet fit each other come
/// from a place kept in memory, from reflections, or from too few satellites, and pass within some ten seconds. So a row is
/// asked for a second for each ten metres beyond the gate, for half a minute at most, and never for longer than the track
/// itself has lasted. After a minute without a believed fix, and where only the UTC is at odds, the fourth fix is believed.
/// </para>
/// </summary>
internal sealed class RivalTrack
{
    private const int Agreeing = 3;
    private const double LeastS = 1, MostS = 30, BeyondMps = 10, ForgottenS = 60;

    private readonly int _asked;

    /// <summary>A row of one fix.</summary>
    /// <param name="fix">The fix, which must have position and height.</param>
    /// <param name="track">The track that it does not fit; null when there is none.</param>
    public RivalTrack(Fix fix, Track? track)
    {
        Track = new Track(fix);
        // A track of one fix has no more to say for itself than the one fix against it.
        _asked = Math.Min(Agreeing, track?.Count ?? 0);
        if (track is null || fix.Utc <= track.Utc) return;
        Innovation off = track.Compare(fix);
        (BeyondM, Jump) = (off.BeyondM, (off.HorizontalFits ? 0 : RefusalReasons.HorizontalJump)
            | (off.VerticalFits ? 0 : RefusalReasons.VerticalJump));
        if (fix.Utc.SecondsSince(track.Utc) > ForgottenS) return;
        AskedS = Math.Max(LeastS, Math.Min(Math.Min(BeyondM / BeyondMps, MostS), track.Utc.SecondsSince(track.First)));
    }

    /// <summary>The row.</summary>
    public Track Track { get; private set; }

    /// <summary>How far its first fix lay beyond the gate, m; 0 when only its time did not fit.</summary>
    public double BeyondM { get; }

    /// <summary>In which direction it lay beyond.</summary>
    public RefusalReasons Jump { get; }

    /// <summary>How long it must last to be believed, s.</summary>
    public double AskedS { get; } = LeastS;

    /// <summary>More than a slip: fixes that follow it belong to it, and the track's gate no longer opens for them.</summary>
    public bool IsRow => Jump != RefusalReasons.None && Track.Count >= Agreeing;

    /// <summary>True when it has lasted long enough.</summary>
    public bool Wins => Track.Count > _asked
        && (_asked < Agreeing || Track.Utc.SecondsSince(Track.First) >= AskedS);

    /// <summary>Takes a fix that goes on with it; false when it does not.</summary>
    public bool Take(Fix fix)
    {
        if (fix.Utc <= Track.Utc || !Track.Compare(fix).Fits) return false;
        Track.Add(fix);
        return true;
    }

    /// <summary>Moves every moment by a span: the date of all of them was found to be another.</summary>
    public void Shift(TimeSpan by) => Track.Shift(by);

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public RivalTrack Copy()
    {
        var copy = (RivalTrack)MemberwiseClone();
        copy.Track = Track.Copy();
        return copy;
    }
}
