using System.Runtime.CompilerServices;

namespace Groundstation.Core.Sentences;

/// <summary>GGA field 6. A blank field is null, not <see cref="Invalid"/>.</summary>
public enum FixQuality
{
    /// <summary>0: no fix.</summary>
    Invalid = 0,

    /// <summary>1: autonomous.</summary>
    Autonomous = 1,

    /// <summary>2: differential or satellite-based augmentation.</summary>
    Differential = 2,

    /// <summary>3: precise positioning service.</summary>
    Precise = 3,

    /// <summary>4: real-time kinematic, integers fixed.</summary>
    RtkFixed = 4,

    /// <summary>5: real-time kinematic, float.</summary>
    RtkFloat = 5,

    /// <summary>6: estimated (dead reckoning): not a real fix.</summary>
    Estimated = 6,

    /// <summary>7: typed in by hand: not a real fix.</summary>
    Manual = 7,

    /// <summary>8: simulator: not a real fix.</summary>
    Simulator = 8,
}

/// <summary>GSA field 2: the fix's dimension.</summary>
public enum FixDimension
{
    /// <summary>1: no fix.</summary>
    None = 1,

    /// <summary>2: two dimensions, altitude not measured.</summary>
    TwoD = 2,

    /// <summary>3: three dimensions.</summary>
    ThreeD = 3,
}

/// <summary>GGA: fix data of one epoch. A field left blank is null.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="LatitudeDeg">Latitude, degrees, north positive.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive.</param>
/// <param name="Quality">Quality indicator; null when blank (unknown, neither fix nor no fix).</param>
/// <param name="SatellitesUsed">Satellites used.</param>
/// <param name="Hdop">Horizontal dilution of precision; 99.99 and the like are null.</param>
/// <param name="AltitudeMslM">Altitude above mean sea level, metres.</param>
/// <param name="GeoidSeparationM">Geoid above the ellipsoid, metres.</param>
public readonly record struct Gga(TimeSpan? Time, double? LatitudeDeg, double? LongitudeDeg, FixQuality? Quality,
    int? SatellitesUsed, double? Hdop, double? AltitudeMslM, double? GeoidSeparationM);

/// <summary>RMC: recommended minimum. A field left blank is null.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="Status">Field 2: <c>A</c> valid, <c>V</c> warning; any other letter is not valid.</param>
/// <param name="LatitudeDeg">Latitude, degrees, north positive.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive.</param>
/// <param name="SpeedMps">Speed over ground, m/s.</param>
/// <param name="CourseDeg">Course over ground, degrees true.</param>
/// <param name="Date">UTC date as sent; two-digit years 80–99 are 1980–1999.</param>
/// <param name="Mode">Field 12 (2.3 and later): A, D, R, F, P real; E, M, S, N not.</param>
/// <param name="NavigationalStatus">Field 13 (4.10 and later): S, C, U, V; V says nothing about the fix.</param>
public readonly record struct Rmc(TimeSpan? Time, char? Status, double? LatitudeDeg, double? LongitudeDeg,
    double? SpeedMps, double? CourseDeg, DateOnly? Date, char? Mode, char? NavigationalStatus);

/// <summary>GLL: position. A field left blank is null.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="LatitudeDeg">Latitude, degrees, north positive.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive.</param>
/// <param name="Status">A valid, V not; null in the old short form.</param>
/// <param name="Mode">Mode letter (2.3 and later).</param>
public readonly record struct Gll(TimeSpan? Time, double? LatitudeDeg, double? LongitudeDeg, char? Status, char? Mode);

/// <summary>GNS: fix data for several satellite systems.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="LatitudeDeg">Latitude, degrees, north positive.</param>
/// <param name="LongitudeDeg">Longitude, degrees, east positive.</param>
/// <param name="AnyMode">True when at least one system's mode letter is a real fix (A, D, P, R, F).</param>
/// <param name="SatellitesUsed">Satellites used.</param>
/// <param name="Hdop">Horizontal dilution of precision.</param>
/// <param name="AltitudeMslM">Altitude above mean sea level, metres.</param>
/// <param name="GeoidSeparationM">Geoid above the ellipsoid, metres.</param>
public readonly record struct Gns(TimeSpan? Time, double? LatitudeDeg, double? LongitudeDeg, bool AnyMode,
    int? SatellitesUsed, double? Hdop, double? AltitudeMslM, double? GeoidSeparationM);

/// <summary>Up to twelve satellite numbers of one GSA.</summary>
[InlineArray(12)]
public struct TwelveSatellites
{
    private short _first;
}

/// <summary>
/// GSA: dimension, satellites used and dilutions of precision. Several come in one epoch, one a system.
/// </summary>
/// <param name="Dimension">Field 2; null when blank.</param>
/// <param name="SatelliteCount">How many satellites stand in <paramref name="Satellites"/>.</param>
/// <param name="Satellites">Their numbers.</param>
/// <param name="Pdop">Position dilution of precision.</param>
/// <param name="Hdop">Horizontal dilution of precision.</param>
/// <param name="Vdop">Vertical dilution of precision.</param>
/// <param name="SystemId">4.11 field 18: 1 GPS, 2 GLONASS, 3 Galileo, 4 BeiDou, 5 QZSS, 6 NavIC.</param>
public readonly record struct Gsa(FixDimension? Dimension, int SatelliteCount, TwelveSatellites Satellites,
    double? Pdop, double? Hdop, double? Vdop, int? SystemId);

/// <summary>One satellite of a GSV.</summary>
/// <param name="Id">Satellite number.</param>
/// <param name="ElevationDeg">Elevation, degrees, 0–90.</param>
/// <param name="AzimuthDeg">Azimuth, degrees true, 0–359.</param>
/// <param name="SnrDb">Carrier to noise density, dB-Hz; null when not tracked.</param>
public readonly record struct SatelliteInView(short Id, short? ElevationDeg, short? AzimuthDeg, short? SnrDb);

/// <summary>Up to four satellites of one GSV.</summary>
[InlineArray(4)]
public struct FourSatellites
{
    private SatelliteInView _first;
}

/// <summary>GSV: one part of the list of satellites in view.</summary>
/// <param name="Parts">Parts in this group; null when left blank (4.11 allows it in later parts).</param>
/// <param name="Part">This part's number, from 1.</param>
/// <param name="InView">Satellites in view, as told.</param>
/// <param name="SatelliteCount">How many satellites stand in <paramref name="Satellites"/>.</param>
/// <param name="Satellites">The satellites of this part.</param>
/// <param name="SignalId">4.10 and later: signal id (hexadecimal digit on the wire).</param>
public readonly record struct Gsv(int? Parts, int? Part, int? InView, int SatelliteCount, FourSatellites Satellites,
    int? SignalId);

/// <summary>VTG: course and speed over ground.</summary>
/// <param name="CourseTrueDeg">Course, degrees true.</param>
/// <param name="CourseMagneticDeg">Course, degrees magnetic.</param>
/// <param name="SpeedMps">Speed, m/s (from knots, else from km/h).</param>
/// <param name="Mode">Mode letter (2.3 and later).</param>
public readonly record struct Vtg(double? CourseTrueDeg, double? CourseMagneticDeg, double? SpeedMps, char? Mode);

/// <summary>ZDA: UTC time and date.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="Date">UTC date.</param>
public readonly record struct Zda(TimeSpan? Time, DateOnly? Date);

/// <summary>GST: standard deviations of the position.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="RmsM">RMS of the ranges' residuals, metres.</param>
/// <param name="LatitudeSigmaM">Standard deviation of latitude, metres.</param>
/// <param name="LongitudeSigmaM">Standard deviation of longitude, metres.</param>
/// <param name="AltitudeSigmaM">Standard deviation of altitude, metres.</param>
public readonly record struct Gst(TimeSpan? Time, double? RmsM, double? LatitudeSigmaM, double? LongitudeSigmaM,
    double? AltitudeSigmaM);

/// <summary>
/// One measurement of an XDR sentence: type, value, unit, name (IEC 61162-1). A value that is no number is null.
/// The spans lie in the sentence and are gone with it.
/// </summary>
public readonly ref struct XdrMeasurement
{
    /// <summary>Which quadruple of the sentence it is, from 0: of two nameless temperatures the order tells.</summary>
    public int Index { get; init; }

    /// <summary>
    /// Transducer type letter: C temperature, P pressure, U voltage, H humidity, I current, A angle, …
    /// </summary>
    public required char Type { get; init; }

    /// <summary>The value in <see cref="Unit"/>.</summary>
    public required double? Value { get; init; }

    /// <summary>
    /// Unit letter: C degrees Celsius, B bar, P pascal or per cent, V volt, A ampere, M …; 0 when blank.
    /// </summary>
    public required char Unit { get; init; }

    /// <summary>The transducer's name, ASCII, may be empty.</summary>
    public required ReadOnlySpan<byte> Name { get; init; }
}
