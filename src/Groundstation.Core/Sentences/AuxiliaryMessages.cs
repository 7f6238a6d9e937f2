namespace Groundstation.Core.Sentences;

/// <summary>GBS: satellite fault detection. A field left blank is null.</summary>
/// <param name="Time">UTC time of day.</param>
/// <param name="LatitudeErrorM">Expected error in latitude, metres.</param>
/// <param name="LongitudeErrorM">Expected error in longitude, metres.</param>
/// <param name="AltitudeErrorM">Expected error in altitude, metres.</param>
/// <param name="FailedSatellite">Number of the satellite most likely at fault.</param>
/// <param name="MissProbability">Probability of missed detection for it, 0–1.</param>
/// <param name="BiasM">Its estimated bias, metres.</param>
/// <param name="BiasSigmaM">Standard deviation of that, metres.</param>
public readonly record struct Gbs(TimeSpan? Time, double? LatitudeErrorM, double? LongitudeErrorM,
    double? AltitudeErrorM, int? FailedSatellite, double? MissProbability, double? BiasM, double? BiasSigmaM)
{
    /// <summary>Decodes an accepted sentence; false when it is no GBS.</summary>
    public static bool TryDecode(in Sentence sentence, out Gbs message)
    {
        message = default;
        if (!SentenceDecoder.Is(sentence, "GBS"u8)) return false;
        var f = FieldReader.Split(sentence.Text, stackalloc ushort[FieldReader.SplitRoom]);
        return AuxiliarySentences.Read(ref f, out message) is null;
    }
}

/// <summary>DTM: the datum of the positions that follow. The spans lie in the sentence and are gone with it.</summary>
public readonly ref struct Dtm
{
    /// <summary>Local datum: <c>W84</c> WGS 84, <c>W72</c>, <c>P90</c>, <c>999</c> user defined, …</summary>
    public ReadOnlySpan<byte> Local { get; init; }

    /// <summary>Reference datum, <c>W84</c> as a rule.</summary>
    public ReadOnlySpan<byte> Reference { get; init; }

    /// <summary>Local minus reference latitude, minutes of arc, north positive.</summary>
    public double? LatitudeOffsetMin { get; init; }

    /// <summary>Local minus reference longitude, minutes of arc, east positive.</summary>
    public double? LongitudeOffsetMin { get; init; }

    /// <summary>Local minus reference altitude, metres.</summary>
    public double? AltitudeOffsetM { get; init; }

    /// <summary>Decodes an accepted sentence; false when it is no DTM.</summary>
    public static bool TryDecode(in Sentence sentence, out Dtm message)
    {
        message = default;
        if (!SentenceDecoder.Is(sentence, "DTM"u8)) return false;
        var f = FieldReader.Split(sentence.Text, stackalloc ushort[FieldReader.SplitRoom]);
        var reason = AuxiliarySentences.ReadDtm(ref f, out double? latitude, out double? longitude, out double? altitude);
        if (reason is not null) return false;
        int local = sentence.Address.Length + 2;
        int reference = sentence.Text.LastIndexOf((byte)',') + 1;
        message = new Dtm
        {
            Local = sentence.Text.Slice(local, f[1].Length),
            Reference = sentence.Text.Slice(reference, f[8].Length),
            LatitudeOffsetMin = latitude,
            LongitudeOffsetMin = longitude,
            AltitudeOffsetM = altitude,
        };
        return true;
    }
}

/// <summary>HDT or THS: true heading.</summary>
/// <param name="TrueDeg">Heading, degrees true.</param>
/// <param name="Mode">THS only: A autonomous, E estimated, M manual, S simulator, V not valid.</param>
public readonly record struct Heading(double? TrueDeg, char? Mode)
{
    /// <summary>Decodes an accepted sentence; false when it is neither HDT nor THS.</summary>
    public static bool TryDecode(in Sentence sentence, out Heading message)
    {
        message = default;
        bool ths = SentenceDecoder.Is(sentence, "THS"u8);
        if (!ths && !SentenceDecoder.Is(sentence, "HDT"u8)) return false;
        var f = FieldReader.Split(sentence.Text, stackalloc ushort[FieldReader.SplitRoom]);
        return AuxiliarySentences.Read(ref f, ths, out message) is null;
    }
}

/// <summary>MWV: wind speed and angle as an instrument on the vehicle or the ground measures them.</summary>
/// <param name="AngleDeg">Where the wind comes from, degrees clockwise from the bow, or from north on the
/// ground.</param>
/// <param name="IsTrue">True for the wind over ground, false for the wind relative to the vehicle.</param>
/// <param name="SpeedMps">Speed, m/s.</param>
/// <param name="Valid">Whether the instrument says its data are valid.</param>
public readonly record struct Mwv(double? AngleDeg, bool IsTrue, double? SpeedMps, bool Valid)
{
    /// <summary>Decodes an accepted sentence; false when it is no MWV.</summary>
    public static bool TryDecode(in Sentence sentence, out Mwv message)
    {
        message = default;
        if (!SentenceDecoder.Is(sentence, "MWV"u8)) return false;
        var f = FieldReader.Split(sentence.Text, stackalloc ushort[FieldReader.SplitRoom]);
        return AuxiliarySentences.Read(ref f, out message) is null;
    }
}

/// <summary>MDA: a weather station's composite.</summary>
/// <param name="PressurePa">Air pressure, Pa (from bar, else from inches of mercury at 0 °C, 3386.389 Pa each).</param>
/// <param name="AirC">Air temperature, °C.</param>
/// <param name="HumidityPercent">Relative humidity, %.</param>
/// <param name="DewPointC">Dew point, °C.</param>
/// <param name="WindFromDeg">Where the wind comes from, degrees true.</param>
/// <param name="WindMps">Wind speed, m/s (from m/s, else from knots).</param>
public readonly record struct Mda(double? PressurePa, double? AirC, double? HumidityPercent, double? DewPointC,
    double? WindFromDeg, double? WindMps)
{
    /// <summary>Decodes an accepted sentence; false when it is no MDA.</summary>
    public static bool TryDecode(in Sentence sentence, out Mda message)
    {
        message = default;
        if (!SentenceDecoder.Is(sentence, "MDA"u8)) return false;
        var f = FieldReader.Split(sentence.Text, stackalloc ushort[FieldReader.SplitRoom]);
        return AuxiliarySentences.Read(ref f, out message) is null;
    }
}
