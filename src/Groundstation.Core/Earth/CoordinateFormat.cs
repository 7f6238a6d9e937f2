namespace Groundstation.Core.Earth;

/// <summary>A way to write a place. All are WGS 84.</summary>
public enum CoordinateFormat
{
    /// <summary>Decimal degrees, five decimals: about a metre.</summary>
    DecimalDegrees,

    /// <summary>Degrees and decimal minutes, three decimals: about two metres.</summary>
    DegreesMinutes,

    /// <summary>Degrees, minutes and seconds, one decimal: about three metres.</summary>
    DegreesMinutesSeconds,

    /// <summary>UTM (UPS near the poles), whole metres.</summary>
    Utm,

    /// <summary>MGRS, ten digits: the square metre.</summary>
    Mgrs,

    /// <summary>Maidenhead locator of ten characters: a cell of 39 m by 19 m, narrower off the equator.</summary>
    Maidenhead,
}
