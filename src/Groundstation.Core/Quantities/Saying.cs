using System.Globalization;
using System.Runtime.CompilerServices;

namespace Groundstation.Core.Quantities;

/// <summary>
/// A text with figures in it that is worded only where it is read: logs have it in SI, screens in the units chosen. An
/// interpolated string becomes one: what is put in as a <see cref="Measure"/> follows the reader's units, all else is
/// written the invariant way.
/// </summary>
[InterpolatedStringHandler]
public sealed class Saying : IEquatable<Saying>
{
    // Words, and figures between them.
    private readonly List<object> _parts = [];

    /// <summary>For the compiler, which calls it for an interpolated string.</summary>
    public Saying(int literalLength, int formattedCount) => _parts.Capacity = 2 * formattedCount + 1;

    /// <summary>No words.</summary>
    public static Saying None { get; } = new(0, 0);

    /// <summary>True when there are no words.</summary>
    public bool IsEmpty => ToString().Length == 0;

    /// <summary>Words that are the same in all units.</summary>
    public static implicit operator Saying(string words) => $"{words}";

    /// <summary>One behind the other.</summary>
    public static Saying operator +(Saying first, Saying next) => $"{first}{next}";

    /// <summary>All of them, with a text between each two.</summary>
    public static Saying Join(string between, IEnumerable<Saying> all) =>
        all.Aggregate(None, (so, next) => so.IsEmpty ? next : $"{so}{between}{next}");

    /// <summary>For the compiler.</summary>
    public void AppendLiteral(string value) => _parts.Add(value);

    /// <summary>For the compiler.</summary>
    /// <param name="value">A figure.</param>
    /// <param name="format">Decimals in SI where they are others than usual.</param>
    public void AppendFormatted(Measure value, string? format = null) =>
        _parts.Add(format is null ? value : value.Written(format));

    /// <summary>For the compiler.</summary>
    public void AppendFormatted(Saying value) => _parts.AddRange(value._parts);

    /// <summary>For the compiler.</summary>
    public void AppendFormatted<T>(T value, string? format = null) => _parts.Add(
        (value is IFormattable f ? f.ToString(format, CultureInfo.InvariantCulture) : value?.ToString()) ?? "");

    /// <summary>The words with their figures in given units.</summary>
    public string In(DisplayUnits units) => string.Concat(_parts.Select(p => p is Measure m ? m.In(units) : p));

    /// <summary>The words with their figures in SI, as logs have them.</summary>
    public override string ToString() => In(DisplayUnits.Metric);

    /// <summary>True when both say the same.</summary>
    public bool Equals(Saying? other) => other is not null && ToString() == other.ToString();

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Saying);

    /// <inheritdoc/>
    public override int GetHashCode() => ToString().Length;
}
