using System.Runtime.CompilerServices;

namespace Groundstation.Core.Sentences;

/// <summary>
/// The fields of one sentence, by number: 1 is the first behind the address. Getters give null for a blank or missing
/// field; a field that breaks its grammar gives null as well and sets <see cref="Broken"/>, which the decoder asks once
/// at the end.
/// </summary>
internal ref struct FieldReader
{
    private readonly ReadOnlySpan<byte> _text;
    private readonly ReadOnlySpan<ushort> _ends;

    /// <summary>
    /// Over a sentence's text; <paramref name="ends"/> holds each comma and, last, the end of the last field.
    /// </summary>
    public FieldReader(ReadOnlySpan<byte> text, ReadOnlySpan<ushort> ends)
    {
        _text = text;
        _ends = ends;
    }

    /// <summary>How many fields follow the address.</summary>
    public readonly int Count => _ends.Length - 1;

    /// <summary>Whether any field read so far broke its grammar.</summary>
    public bool Broken { get; private set; }

    /// <summary>A field's bytes; empty when it is missing.</summary>
    public readonly ReadOnlySpan<byte> this[int field]
    {
        get => Bounds(field, out int from, out int end) ? _text[from..end] : default;
    }

    /// <summary>
    /// Room for the ends that <see cref="Split"/> finds; no sentence decoded that way has as many fields.
    /// </summary>
    public const int SplitRoom = 32;

    /// <summary>Finds the fields of an accepted sentence again; those that find no room count as one.</summary>
    public static FieldReader Split(ReadOnlySpan<byte> text, Span<ushort> room)
    {
        int star = text.LastIndexOf((byte)'*');
        int end = star < 0 ? text.Length : star;
        int count = 0;
        for (int i = 0; i < end && count < room.Length - 1; i++)
            if (text[i] == (byte)',') room[count++] = (ushort)i;
        room[count++] = (ushort)end;
        return new FieldReader(text, room[..count]);
    }

    /// <summary>Where a field lies in the text; false when it is blank or missing.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly bool Bounds(int field, out int from, out int end)
    {
        from = end = 0;
        if ((uint)(field - 1) >= (uint)(_ends.Length - 1)) return false;
        from = _ends[field - 1] + 1;
        end = _ends[field];
        return from < end;
    }

    /// <summary>Whether a field begins with a byte.</summary>
    public readonly bool StartsWith(int field, byte first) =>
        Bounds(field, out int from, out _) && _text[from] == first;

    /// <summary>Records that something is not as the standard says.</summary>
    public void Break() => Broken = true;

    /// <summary>A number, either sign.</summary>
    public double? Number(int field)
    {
        if (!Bounds(field, out int from, out int end)) return null;
        if (Grammar.TryNumber(_text[from..end], out double value)) return value;
        Broken = true;
        return null;
    }

    /// <summary>A number from 0 to <paramref name="max"/>, without sign.</summary>
    public double? Unsigned(int field, double max = double.MaxValue)
    {
        if (Number(field) is not { } value) return null;
        if (value <= max && _text[_ends[field - 1] + 1] != (byte)'-') return value;
        Broken = true;
        return null;
    }

    /// <summary>
    /// A dilution of precision. 99 and more is how receivers say "none", and so is 0, which no geometry gives.
    /// </summary>
    public double? Dilution(int field) => Unsigned(field) is { } value and > 0 and < 99 ? value : null;

    /// <summary>Digits without sign, at most <paramref name="max"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int? Integer(int field, int max)
    {
        if (!Bounds(field, out int from, out int end)) return null;
        if (Grammar.TryDigits(_text[from..end], out int value) && value <= max) return value;
        Broken = true;
        return null;
    }

    /// <summary>One hexadecimal digit (signal and system identifiers of 4.10 and later).</summary>
    public int? HexDigit(int field)
    {
        var f = this[field];
        if (f.IsEmpty) return null;
        if (f.Length == 1 && Checksum.HexDigit(f[0]) is var value and >= 0) return value;
        Broken = true;
        return null;
    }

    /// <summary>One capital letter.</summary>
    public char? Letter(int field)
    {
        var f = this[field];
        if (f.IsEmpty) return null;
        if (f.Length == 1 && f[0] is >= (byte)'A' and <= (byte)'Z') return (char)f[0];
        Broken = true;
        return null;
    }

    /// <summary>Blank, or one of the letters allowed there.</summary>
    public char? OneOf(int field, ReadOnlySpan<byte> allowed)
    {
        var f = this[field];
        if (f.IsEmpty) return null;
        if (f.Length == 1 && allowed.Contains(f[0])) return (char)f[0];
        Broken = true;
        return null;
    }

    /// <summary>A value in metres: a number followed by its unit, which must be M when the number is there.</summary>
    public double? Metres(int field)
    {
        double? value = Number(field);
        if (OneOf(field + 1, "M"u8) is null && value is not null) Broken = true;
        return value;
    }

    /// <summary>UTC time of day.</summary>
    public TimeSpan? Time(int field)
    {
        var f = this[field];
        if (f.IsEmpty) return null;
        if (Grammar.TryTime(f, out var value)) return value;
        Broken = true;
        return null;
    }

    /// <summary>Date of six digits; null as well when the digits name no day.</summary>
    public DateOnly? Date(int field)
    {
        var f = this[field];
        if (f.IsEmpty) return null;
        if (!Grammar.TryDate(f, out var value)) Broken = true;
        return value;
    }

    /// <summary>
    /// Latitude and longitude with their hemispheres, four fields from <paramref name="field"/> on; both or neither.
    /// A hemisphere without its angle is how some receivers fill in a missing position, and means none.
    /// </summary>
    public void Position(int field, out double? latitudeDeg, out double? longitudeDeg)
    {
        latitudeDeg = Angle(field, 90, (byte)'N', (byte)'S');
        longitudeDeg = Angle(field + 2, 180, (byte)'E', (byte)'W');
        if (latitudeDeg.HasValue != longitudeDeg.HasValue) Broken = true;
    }

    private double? Angle(int field, int limitDeg, byte positive, byte negative)
    {
        var angle = this[field];
        var hemisphere = this[field + 1];
        bool isNegative = hemisphere.Length == 1 && hemisphere[0] == negative;
        bool isPositive = hemisphere.Length == 1 && hemisphere[0] == positive;
        if (angle.IsEmpty)
        {
            if (!hemisphere.IsEmpty && !isNegative && !isPositive) Broken = true;
            return null;
        }

        if ((isNegative || isPositive) && Grammar.TryAngle(angle, limitDeg, out double degrees))
            return isNegative ? -degrees : degrees;
        Broken = true;
        return null;
    }
}
