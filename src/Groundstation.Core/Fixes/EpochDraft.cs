using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Core.Sentences;

namespace Groundstation.Core.Fixes;

/// <summary>
/// What the sentences of one epoch have said so far. Kept and cleared, so that joining allocates nothing.
/// The place comes from GGA, else GNS, else RMC, else GLL: the first two carry the height that belongs to it.
/// Places of other sentences only serve to find contradictions.
/// </summary>
internal sealed class EpochDraft
{
    // Receivers print two to seven decimals of a minute, and some cut where others round: 0.01′ is 19 m.
    private const double SamePlaceM = 100;

    private List<int> _satellites = new(64);
    private Part _placeFrom;
    private GeoPoint? _place;
    private HeightMsl? _height;
    private double? _separationM;
    private FixQuality? _quality;
    private FixDimension? _dimension;
    private int? _satellitesSaid;
    private double? _hdop;
    private double? _gsaHdop;
    private bool _saysFix;
    private bool _saysNone;
    private bool _saysNotMeasured;
    private double _apartM;

    /// <summary>UTC time of day; null while only sentences without a time came.</summary>
    public TimeSpan? Time { get; private set; }

    /// <summary>Arrival of the first sentence.</summary>
    public Instant Heard { get; private set; }

    /// <summary>Arrival of the newest sentence.</summary>
    public Instant Newest { get; private set; }

    /// <summary>The date sent in it, by RMC or ZDA.</summary>
    public DateOnly? Date { get; private set; }

    /// <summary>Speed over ground, m/s.</summary>
    public double? SpeedMps { get; private set; }

    /// <summary>Course over ground, degrees true.</summary>
    public double? CourseDeg { get; private set; }

    /// <summary>True once a sentence is in it.</summary>
    public bool Any { get; private set; }

    /// <summary>True once a sentence is in it that tells of a fix or of none: GGA, GNS, RMC, GLL.</summary>
    public bool TellsFix { get; private set; }

    /// <summary>True when its sentences say that the receiver has a fix, and none that it has not.</summary>
    public bool HasFix => _saysFix && !_saysNone && !_saysNotMeasured;

    public void Clear()
    {
        _satellites.Clear();
        (Time, Date, SpeedMps, CourseDeg) = (null, null, null, null);
        (_place, _height, _separationM, _quality, _dimension) = (null, null, null, null, null);
        (_satellitesSaid, _hdop, _gsaHdop) = (null, null, null);
        (_saysFix, _saysNone, _saysNotMeasured, Any, TellsFix) = (false, false, false, false, false);
        _apartM = 0;
    }

    /// <summary>Notes that a sentence came.</summary>
    public void Touch(Instant heard, TimeSpan? time)
    {
        // Of two sentences without a time and one with it, the last says when the epoch was heard.
        if (!Any || (Time is null && time is not null))
            Heard = heard;
        Any = true;
        Newest = heard;
        Time ??= time;
    }

    public void Take(in Gga m)
    {
        TellsFix = true;
        if (m.Quality == FixQuality.Invalid)
            _saysNone = true;
        else if (m.Quality is FixQuality.Estimated or FixQuality.Manual or FixQuality.Simulator)
            _saysNotMeasured = true;
        else if (m.Quality is not null)
            _saysFix = true;
        // Two talkers, GPGGA and GLGGA, each count their own satellites; the larger quality number is no better.
        _quality ??= m.Quality;
        Place(Part.Gga, m.LatitudeDeg, m.LongitudeDeg, m.AltitudeMslM, m.GeoidSeparationM);
        Counts(m.SatellitesUsed, m.Hdop);
    }

    public void Take(in Gns m)
    {
        TellsFix = true;
        if (m.AnyMode)
            _saysFix = true;
        else
            _saysNone = true;
        Place(Part.Gns, m.LatitudeDeg, m.LongitudeDeg, m.AltitudeMslM, m.GeoidSeparationM);
        Counts(m.SatellitesUsed, m.Hdop);
    }

    public void Take(in Rmc m)
    {
        Claim(m.Status ?? 'V', m.Mode);
        Place(Part.Rmc, m.LatitudeDeg, m.LongitudeDeg, null, null);
        Date ??= m.Date;
        Motion(m.SpeedMps, m.CourseDeg);
    }

    public void Take(in Gll m)
    {
        // The old short form has neither time nor status: it says where, not whether.
        if (m.Status is not null || m.Mode is not null)
            Claim(m.Status ?? 'A', m.Mode);
        TellsFix = true;
        Place(Part.Gll, m.LatitudeDeg, m.LongitudeDeg, null, null);
    }

    public void Take(in Gsa m, ReadOnlySpan<byte> address)
    {
        // Each system has its own GSA, and all tell the same dimension; one that tells none means its own system.
        if (m.Dimension is { } dimension && (_dimension is null || dimension > _dimension))
            _dimension = dimension;
        _gsaHdop ??= m.Hdop;
        for (int i = 0; i < m.SatelliteCount; i++)
        {
            int key = GnssSystem.Of(address, m.SystemId, m.Satellites[i]) * 1000 + m.Satellites[i];
            if (!_satellites.Contains(key))
                _satellites.Add(key);
        }
    }

    public void Take(in Vtg m)
    {
        if (m.Mode is null or not ('N' or 'E' or 'M' or 'S'))
            Motion(m.SpeedMps, m.CourseTrueDeg);
    }

    public void Take(in Zda m) => Date ??= m.Date;

    /// <summary>What the sentences add up to, not yet judged but for what only they could tell.</summary>
    public Fix ToFix(Receive.SourceId source, Instant utc, DateOrigin origin)
    {
        Verdict refused = new();
        if (_saysNone)
            refused.Add(RefusalReasons.NoFix, "receiver has no fix");
        else if (!_saysFix && !_saysNotMeasured && _dimension is not (FixDimension.TwoD or FixDimension.ThreeD))
            refused.Add(RefusalReasons.NoFix, "receiver does not say whether it has a fix");
        if (_saysNotMeasured)
            refused.Add(RefusalReasons.NotMeasured, "position estimated, typed in or simulated");
        if (_apartM > SamePlaceM)
            refused.Add(RefusalReasons.SentencesDisagree,
                $"its sentences give places {Measure.DistanceAfar(_apartM)} apart");

        int? used = _satellites.Count > 0 ? Math.Max(_satellitesSaid ?? 0, _satellites.Count) : _satellitesSaid;
        return new Fix
        {
            Source = source,
            Heard = Heard,
            Utc = utc,
            DateFrom = origin,
            Position = _place,
            Height = _height,
            GeoidSeparationM = _separationM ?? (_height is null ? null : Geoid.SeparationM(_place!.Value)),
            HeightFrom = _height is null ? null
                : _separationM is null ? HeightOrigin.ReceiverWithoutSeparation : HeightOrigin.Receiver,
            Quality = _quality,
            Dimension = _dimension,
            SatellitesUsed = used,
            Hdop = _hdop ?? _gsaHdop,
            SpeedMps = SpeedMps,
            CourseDeg = CourseDeg,
            Refused = refused.Reasons,
            Detail = refused.Words,
        };
    }

    // Status A or V, and the mode letter, which is the stronger of the two (2.3 and later).
    private void Claim(char status, char? mode)
    {
        TellsFix = true;
        if (status != 'A' || mode == 'N')
            _saysNone = true;
        else if (mode is 'E' or 'M' or 'S')
            _saysNotMeasured = true;
        else
            _saysFix = true;
    }

    private void Place(Part from, double? latitudeDeg, double? longitudeDeg, double? heightM, double? separationM)
    {
        if (latitudeDeg is not { } latitude || longitudeDeg is not { } longitude)
            return;
        var place = new GeoPoint(latitude, longitude);
        if (_place is { } other)
        {
            (double east, double north) = Track.Metres(other, place);
            _apartM = Math.Max(_apartM, Math.Sqrt(east * east + north * north));
        }

        if (_place is not null && (from > _placeFrom || (from == _placeFrom && _height is not null)))
            return;
        (_placeFrom, _place) = (from, place);
        if (heightM is { } metres)
            (_height, _separationM) = (new(metres), separationM);
    }

    private void Counts(int? satellites, double? hdop)
    {
        if (satellites is not null)
            _satellitesSaid = Math.Max(satellites.Value, _satellitesSaid ?? 0);
        _hdop ??= hdop;
    }

    private void Motion(double? speedMps, double? courseDeg)
    {
        SpeedMps ??= speedMps;
        CourseDeg ??= courseDeg;
    }

    /// <summary>A copy that goes its own way: see <see cref="Station.Copy"/>.</summary>
    public EpochDraft Copy()
    {
        var copy = (EpochDraft)MemberwiseClone();
        copy._satellites = [.. _satellites];
        return copy;
    }
}
