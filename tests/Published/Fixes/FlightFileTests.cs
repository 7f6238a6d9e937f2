using Groundstation.Core.Fixes;
using Xunit;

namespace Groundstation.Published.Fixes;

/// <summary>
/// Flights computed from real soundings, as a receiver would say them (data/flight_*.nmea; scipy DOP853 and
/// GeographicLib, GPS noise 2.5 m horizontal and 3.75 m vertical), and one of them with labelled faults.
/// </summary>
public sealed class FlightFileTests
{
    private static readonly string Data = Path.Combine(AppContext.BaseDirectory, "data");

    private static string TimeOf(Fix fix) => fix.Utc.ToString()[11..19].Replace(":", "", StringComparison.Ordinal);

    private static byte[] Bytes(string file) => File.ReadAllBytes(Path.Combine(Data, file));

    [Theory]
    [InlineData("flight_oun.nmea", "2023-05-22", 1707)]
    [InlineData("flight_boi_jet.nmea", "2010-12-09", 1428)]
    public void Every_fix_of_a_clean_flight_is_believed(string file, string day, int epochs)
    {
        var replay = new Replayed(Bytes(file), DateOnly.ParseExact(day, "yyyy-MM-dd"));
        Assert.Equal(epochs, replay.Fixes.Count);
        Assert.All(replay.Fixes, f => Assert.True(f.Fix.Believed, $"{f.Line}: {f.Fix.Refused}: {f.Fix.Detail}"));
        Assert.All(replay.Fixes, f => Assert.Equal(day, f.Fix.Utc.ToString()[..10]));
    }

    [Fact]
    public void Every_label_of_the_flight_with_faults_is_met()
    {
        var replay = new Replayed(Bytes("flight_oun_faults.nmea"), new DateOnly(2023, 5, 22));
        string[] lines = System.Text.Encoding.Latin1.GetString(Bytes("flight_oun_faults.nmea")).Split('\n');
        var believed = replay.Believed.ToLookup(TimeOf);
        foreach (string row in File.ReadLines(Path.Combine(Data, "flight_oun_faults_labels.csv")).Skip(1))
        {
            if (row.StartsWith('#') || row.StartsWith("line", StringComparison.Ordinal))
                continue;
            int line = int.Parse(row.Split(',')[0], System.Globalization.CultureInfo.InvariantCulture);
            string label = row.Split(',')[1];
            string text = lines[line - 1];
            string time = text.Split(',') is [_, { Length: >= 6 } t, ..] ? t[..6] : "";
            // Of a repeated or late epoch, the one heard in its own time is believed.
            if (label is "ok:lowercase_checksum" or "reject:duplicate" or "reject:time_backwards")
                Assert.Single(believed[time]);
            else
                Assert.Empty(believed[time]);
        }

        RefusalReasons At(int line) => replay.Fixes.First(f => f.Line > line - 1 && f.Line <= line + 2
            && TimeOf(f.Fix) == lines[line - 1].Split(',')[1][..6] && !f.Fix.Believed).Fix.Refused;
        Assert.Equal(RefusalReasons.HorizontalJump | RefusalReasons.SentencesDisagree, At(241));
        Assert.Equal(RefusalReasons.Duplicate, At(302));
        Assert.Equal(RefusalReasons.TimeBackwards, At(402));
        Assert.True(At(484).HasFlag(RefusalReasons.NullIsland));
        for (int line = 2006; line <= 2022; line += 2)
            Assert.Equal(RefusalReasons.FrozenAltitude, At(line));
        // Nothing but the labelled lines costs an epoch: a good fix after each fault is believed.
        Assert.Equal(21, replay.Fixes.Count(f => !f.Fix.Believed));
    }

    [Fact]
    public void The_faults_leave_the_believed_track_as_the_clean_flight_has_it()
    {
        var clean = new Replayed(Bytes("flight_oun.nmea"), new DateOnly(2023, 5, 22)).Believed
            .ToDictionary(f => f.Utc, f => (f.Position, f.Height));
        foreach (Fix fix in new Replayed(Bytes("flight_oun_faults.nmea"), new DateOnly(2023, 5, 22)).Believed)
            Assert.Equal(clean[fix.Utc], (fix.Position, fix.Height));
    }
}
