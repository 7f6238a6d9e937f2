using System.Globalization;
using System.Text;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;

namespace Groundstation.Published.Fixes;

/// <summary>
/// A recording fed to a source line by line, heard when its sentences' own UTC says, with a tick at every whole second
/// in between. The arrival's date is the one given: it stands for the station's own clock.
/// </summary>
internal sealed class Replayed
{
    private readonly SourceFixes _source;
    private int _line;
    private Instant _now;

    public Replayed(ReadOnlySpan<byte> recording, DateOnly day, FlightPlan? plan = null)
    {
        _source = new(new SourceId("radio1"), plan ?? FlightPlan.Default, f => Fixes.Add((f, _line)));
        _now = Instant.FromUtc(day, TimeSpan.Zero);
        bool started = false;
        while (!recording.IsEmpty)
        {
            int end = recording.IndexOf((byte)'\n') + 1;
            ReadOnlySpan<byte> line = recording[..(end == 0 ? recording.Length : end)];
            recording = recording[line.Length..];
            _line++;
            if (line[0] == '#')
                continue;
            if (TimeIn(Encoding.Latin1.GetString(line)) is { } time)
            {
                Instant at = Instant.FromUtc(day, time);
                while (started && at.SecondsSince(_now) < -43_200)
                    at += TimeSpan.FromDays(1);
                if (!started)
                    _now = at;
                started = true;
                while (_now.SecondsSince(at) < -1)
                    _source.Tick(_now = Instant.FromUnixMilliseconds((_now.UnixMilliseconds / 1000 + 1) * 1000));
                _now = at > _now ? at : _now;
            }

            _source.Push(_now, line);
        }

        _source.Tick(_now.PlusSeconds(2));
        _source.Flush(_now.PlusSeconds(2));
    }

    /// <summary>Every epoch with the line whose reading completed it.</summary>
    public List<(Fix Fix, int Line)> Fixes { get; } = [];

    public SourceFixes Source => _source;

    public Instant End => _now;

    public IEnumerable<Fix> Believed => Fixes.Select(f => f.Fix).Where(f => f.Believed);

    private static TimeSpan? TimeIn(string line)
    {
        string[] fields = line.TrimStart('$').Split(',');
        if (fields.Length < 6 || fields[0].Length != 5)
            return null;
        string text = fields[0][2..] switch
        {
            "GGA" or "RMC" or "GNS" or "ZDA" => fields[1],
            "GLL" => fields[5],
            _ => "",
        };
        if (text.Length < 6 || !int.TryParse(text[..6], out int hms)
            || !double.TryParse("0" + text[6..].Split('*')[0], CultureInfo.InvariantCulture, out double fraction))
            return null;
        return new TimeSpan(hms / 10000, hms / 100 % 100, Math.Min(59, hms % 100)) + TimeSpan.FromSeconds(fraction);
    }
}
