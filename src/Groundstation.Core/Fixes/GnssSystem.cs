namespace Groundstation.Core.Fixes;

/// <summary>Which satellite system a number belongs to, since systems share numbers from NMEA 4.10 on.</summary>
internal static class GnssSystem
{
    /// <summary>
    /// System as in NMEA 4.11: 1 GPS (with augmentation), 2 GLONASS, 3 Galileo, 4 BeiDou, 5 QZSS, 6 NavIC; 0 not known.
    /// </summary>
    /// <param name="address">Address field of the sentence.</param>
    /// <param name="systemId">System id, if the sentence has it.</param>
    /// <param name="satellite">Satellite number: for GN without system id, 65–96 is GLONASS, up to 64 GPS.</param>
    public static int Of(ReadOnlySpan<byte> address, int? systemId, int satellite)
    {
        if (systemId is { } id)
            return id;
        return address.Length < 2 ? 0 : (address[0], address[1]) switch
        {
            ((byte)'G', (byte)'P') => 1,
            ((byte)'G', (byte)'L') => 2,
            ((byte)'G', (byte)'A') => 3,
            ((byte)'G', (byte)'B') or ((byte)'B', (byte)'D') => 4,
            ((byte)'G', (byte)'Q') or ((byte)'P', (byte)'Q') or ((byte)'Q', (byte)'Z') => 5,
            ((byte)'G', (byte)'I') => 6,
            _ => satellite is >= 65 and <= 96 ? 2 : satellite is > 0 and <= 64 ? 1 : 0,
        };
    }
}
