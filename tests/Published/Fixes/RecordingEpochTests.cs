using Groundstation.Core.Fixes;
using Groundstation.Published.Nmea;
using Xunit;

namespace Groundstation.Published.Fixes;

/// <summary>Epochs of real receivers' recordings (gpsd's regression recordings, BSD-2-Clause).</summary>
public sealed class RecordingEpochTests
{
    // Epochs: distinct UTC times among GGA, RMC, GNS and GLL with a good checksum, counted by a script of its own.
    // Believed are those of them with an altitude and a quality other than 0, counted likewise.
    [Theory]
    [InlineData("ublox-8.log", "2017-01-10", 72, 72)]
    [InlineData("sirfstarv-nmea.log", "2019-02-05", 59, 59)]
    [InlineData("garmin17n.log", "2005-03-16", 2, 2)]
    [InlineData("furuno_gl_ga.log", "2019-01-01", 16, 16)]
    [InlineData("ublox-neo-m9n-nmea.log", "2020-07-11", 61, 61)]
    [InlineData("ublox-f9p-hpnmea.log", "2019-01-01", 9, 9)]
    [InlineData("bu353s4.log", "2019-01-01", 25, 25)]
    [InlineData("mt3339.log", "2019-01-01", 30, 30)]
    [InlineData("triton400.log", "2013-04-01", 5, 4)]
    [InlineData("iTrek.log", "2005-07-27", 37, 23)]
    [InlineData("quectel-eg25-g.log", "2022-09-11", 60, 23)]
    [InlineData("firefly-II.log", "2012-01-01", 23, 0)] // its GGA all have wrong checksums: RMC alone has no altitude
    [InlineData("magellan-ec10.log", "2005-06-09", 38, 0)] // RMC only
    public void One_fix_an_epoch_and_the_good_ones_believed(string file, string day, int epochs, int believed)
    {
        var replay = new Replayed(NmeaData.Bytes(file), DateOnly.ParseExact(day, "yyyy-MM-dd"));
        Assert.Equal(epochs, replay.Fixes.Count);
        Assert.Equal(believed, replay.Believed.Count());
        Assert.Equal(epochs, replay.Fixes.Select(f => f.Fix.Utc).Distinct().Count());
    }

    [Fact]
    public void Satellites_used_are_summed_over_systems_but_not_over_talkers()
    {
        var replay = new Replayed(NmeaData.Bytes("sirfstarv-nmea.log"), new DateOnly(2019, 2, 5));
        Assert.Equal([10, 10, 11, 15], replay.Fixes.Take(4).Select(f => f.Fix.SatellitesUsed!.Value));
    }

    // The receiver's clock goes back from 19:41:24 to 19:41:11 at the end of the recording.
    [Fact]
    public void Time_going_back_is_refused()
    {
        var replay = new Replayed(NmeaData.Bytes("humminbird-M37.log"), new DateOnly(2006, 9, 16));
        Assert.Equal(6, replay.Believed.Count());
        Assert.Equal(9, replay.Fixes.Count(f => f.Fix.Refused.HasFlag(RefusalReasons.TimeBackwards)));
    }

    // Spoofed to just after the rollover of 2019 and restarted: wild dates and zeros without a fix.
    [Fact]
    public void A_cold_start_gives_no_date_and_no_fix()
    {
        var replay = new Replayed(NmeaData.Bytes("gp-320fw-2019-04-07-coldboot.log"), new DateOnly(2019, 4, 7));
        Assert.Equal(2, replay.Believed.Count());
        Assert.All(replay.Fixes.Skip(2), f => Assert.True(f.Fix.Refused.HasFlag(RefusalReasons.NoFix)));
        Assert.All(replay.Fixes, f => Assert.Equal(2019, f.Fix.Utc.Date.Year));
    }

    [Fact]
    public void A_rolled_over_date_is_recognised()
    {
        var replay = new Replayed(NmeaData.Bytes("april6_2019.log"), new DateOnly(2019, 4, 7));
        Assert.Equal([DateOrigin.NearestToArrival, DateOrigin.ReceiverRolledOver],
            replay.Fixes.Select(f => f.Fix.DateFrom));
        Assert.All(replay.Fixes, f => Assert.Equal(new DateOnly(2019, 4, 7), f.Fix.Utc.Date));
    }

    [Fact]
    public void Every_recording_passes_and_every_refusal_has_its_words()
    {
        foreach (string file in NmeaData.Logs)
        {
            var replay = new Replayed(NmeaData.Bytes(file), new DateOnly(2020, 1, 1));
            Assert.All(replay.Fixes, f => Assert.Equal(f.Fix.Believed, f.Fix.Detail.IsEmpty));
        }
    }
}
