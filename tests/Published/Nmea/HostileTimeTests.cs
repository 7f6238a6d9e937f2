using Groundstation.Core.Sentences;
using Groundstation.Core.Tests.Sentences;
using Xunit;
using static Groundstation.Published.Nmea.HostileTable;

namespace Groundstation.Published.Nmea;

/// <summary>Rows of hostile.tsv on the fields of time and date.</summary>
public sealed class HostileTimeTests
{
    [Fact]
    [HostileRow("time-frozen")]
    [HostileRow("gga-rmc-different-epoch")]
    [HostileRow("midnight-gga")]
    public void Times_are_given_as_sent_so_that_epochs_can_be_told_apart()
    {
        // The joining itself, and the verdict on a time that stands still, are shown with the fixes.
        var rmc = Seal("GPRMC,093015,A,4807.038,N,01131.000,E,022.4,084.4,230313,,,A").Only<Rmc>();
        var gga = Seal("GPGGA,093016,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,").Only<Gga>();
        Assert.Equal(TimeSpan.FromSeconds(1), gga.Time - rmc.Time);
        var late = Seal("GPGGA,235959.00,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,").Only<Gga>();
        Assert.Equal(new TimeSpan(23, 59, 59), late.Time);
    }

    [Fact]
    [HostileRow("week-rollover")]
    [HostileRow("default-date")]
    [HostileRow("date-wobbles-at-cold-start")]
    public void Dates_are_given_as_sent_for_the_fixes_to_judge()
    {
        Assert.Equal(new DateOnly(1999, 8, 22), Feed("week-rollover").Only<Rmc>().Date);
        Assert.Equal(new DateOnly(1980, 1, 5), Feed("default-date").Only<Rmc>().Date);
        var dates = new[] { "161206", "300910", "250910", "220899" }
            .Select(d => Seal($"GPRMC,000000,V,,,,,,,{d},,,N").Only<Rmc>().Date!.Value.Year);
        Assert.Equal([2006, 2010, 2010, 1999], dates);
    }

    [Fact]
    [HostileRow("year-minus-1")]
    public void A_date_that_is_not_six_digits_is_missing_and_the_position_stays()
    {
        var rmc = Feed("year-minus-1").Only<Rmc>();
        Assert.Null(rmc.Date);
        Assert.Equal(48 + (29.0005 / 60), rmc.LatitudeDeg!.Value, 1e-12);
        Assert.Equal(new TimeSpan(0, 0, 2, 31, 99), rmc.Time);
    }

    [Fact]
    [HostileRow("leap-second")]
    public void A_leap_second_lies_between_the_second_before_and_midnight()
    {
        var time = Feed("leap-second").Only<Rmc>().Time!.Value;
        Assert.Equal(new TimeSpan(0, 23, 59, 59, 999), time);
    }

    [Fact]
    [HostileRow("time-overflow-unhandled")]
    public void A_number_with_an_exponent_is_refused_without_harm()
    {
        Assert.Empty(Feed("time-overflow-unhandled").Accepted);
        var whole = Seal("QPZDA,032402.258,,,03E202,00,00");
        Assert.Equal(RejectReason.FieldGrammar, Assert.Single(whole.Rejections).Reason);
    }

    [Theory]
    [InlineData("141825", 0)]
    [InlineData("141825.", 0)]
    [InlineData("141825.2", 2_000_000)]
    [InlineData("141825.20", 2_000_000)]
    [InlineData("141825.200", 2_000_000)]
    [InlineData("141825.1234567", 1_234_567)]
    [InlineData("141825.12345674999999999999", 1_234_567)]
    [InlineData("141825.123456750", 1_234_568)]
    [HostileRow("time-digits")]
    public void Times_have_any_number_of_decimals_and_are_rounded_once(string field, long ticks) => Assert.Equal(
        new TimeSpan(14, 18, 25).Ticks + ticks, Seal($"GPZDA,{field},,,,,").Only<Zda>().Time!.Value.Ticks);

    [Fact]
    [HostileRow("zda-blank")]
    public void A_blank_ZDA_has_no_date() => Assert.Equal(new Zda(null, null), Feed("zda-blank").Only<Zda>());
}
