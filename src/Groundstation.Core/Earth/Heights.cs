namespace Groundstation.Core.Earth;

/// <summary>
/// Height above mean sea level (orthometric, the geoid of the receiver's own model), metres. What GGA field 9 gives.
/// Never mixed with <see cref="HeightEllipsoid"/>: the two differ by the geoid separation, −107 m to +85 m on Earth.
/// </summary>
/// <param name="Metres">Metres above mean sea level; negative below it.</param>
public readonly record struct HeightMsl(double Metres)
{
    /// <summary>
    /// Height above the ellipsoid, given the geoid separation N (metres, geoid above ellipsoid): h = H + N.
    /// </summary>
    public HeightEllipsoid ToEllipsoid(double geoidSeparationM) => new(Metres + geoidSeparationM);
}

/// <summary>Height above the WGS 84 ellipsoid, metres.</summary>
/// <param name="Metres">Metres above the ellipsoid; negative below it.</param>
public readonly record struct HeightEllipsoid(double Metres);
