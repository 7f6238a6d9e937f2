using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Quantities;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Desk;

/// <summary>Where it truly came down.</summary>
/// <param name="Position">The place.</param>
/// <param name="Utc">When.</param>
/// <param name="Known">How that is known, in words.</param>
public sealed record TrueLanding(GeoPoint Position, Instant? Utc, string Known)
{
    /// <summary>
    /// From the <c>truth.csv</c> beside a simulated recording; null when there is none that tells it.
    /// </summary>
    public static TrueLanding? Beside(string recording)
    {
        string path = Path.Combine(Path.GetDirectoryName(recording) ?? "", "truth.csv");
        try
        {
            if (!File.Exists(path))
                return null;
            string[]? columns = null;
            foreach (string line in File.ReadLines(path))
            {
                string[] cells = line.Split(',');
                columns ??= cells;
                if (cells.Length == columns.Length && cells[^1] == "landed"
                    && Number("latitude_deg") is { } latitude && Number("longitude_deg") is { } longitude)
                    return new TrueLanding(new(latitude, longitude), Time("utc"), "truth.csv");

                double? Number(string name) => double.TryParse(Cell(name), NumberStyles.Float,
                    CultureInfo.InvariantCulture, out double value) ? value : null;
                Instant? Time(string name) => DateTimeOffset.TryParse(Cell(name), CultureInfo.InvariantCulture,
                    DateTimeStyles.AssumeUniversal, out DateTimeOffset at)
                    ? Instant.FromUnixMilliseconds(at.ToUnixTimeMilliseconds()) : null;
                string Cell(string name) => Array.IndexOf(columns, name) is >= 0 and var i ? cells[i] : "";
            }
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            // Without the truth the recording's own landing serves.
        }

        return null;
    }
}
