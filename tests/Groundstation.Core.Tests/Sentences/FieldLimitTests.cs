using Groundstation.Core.Sentences;
using Xunit;
using static Groundstation.Core.Tests.Fixes.Wire;

namespace Groundstation.Core.Tests.Sentences;

/// <summary>Where a field's grammar ends, one step to either side.</summary>
public class FieldLimitTests
{
    private static Collector Hear(string body) => Collector.Of(Closed(body) + "\r\n");

    private static void Refused(string body, RejectReason reason) =>
        Assert.Equal(reason, Assert.Single(Hear(body).Rejections).Reason);

    [Theory]
    [InlineData("0.0", null)] // no geometry gives it: a receiver without a fix
    [InlineData("0.5", 0.5)]
    [InlineData("98.9", 98.9)]
    [InlineData("99.0", null)]
    public void A_dilution_that_no_geometry_gives_is_missing(string field, double? hdop) => Assert.Equal(hdop,
        Hear($"GPGGA,090000,5213.1,N,00012.3,E,1,08,{field},345.2,M,45.9,M,,").Only<Gga>().Hdop);

    [Fact]
    public void An_altitude_without_its_unit_is_no_altitude() =>
        Refused("GPGGA,090000,5213.1,N,00012.3,E,1,08,0.9,345.2,,45.9,M,,", RejectReason.FieldGrammar);

    [Theory]
    [InlineData("-0.0")]
    [InlineData("-5.0")]
    public void A_speed_has_no_minus(string knots) =>
        Refused($"GPRMC,090000,A,5213.1,N,00012.3,E,{knots},90.0,210626,,,A", RejectReason.FieldGrammar);

    [Theory]
    [InlineData("8960.0000", true)] // how one chipset family writes "no position yet"
    [InlineData("8960.0001", false)]
    [InlineData("4560.0000", false)]
    [InlineData("4559.9999", true)]
    public void Sixty_minutes_are_the_pole_and_nothing_else(string latitude, bool read)
    {
        Collector heard = Hear($"GPGLL,{latitude},N,00000.0000,E,090000,A,A");
        Assert.Equal(read ? 1 : 0, heard.Messages.Count);
        Assert.Equal(read ? 0 : 1, heard.Rejections.Count);
    }

    [Theory]
    [InlineData("010179", 2079)]
    [InlineData("010180", 1980)]
    [InlineData("311299", 1999)]
    public void Two_digit_years_turn_at_the_first_year_of_GPS(string date, int year) => Assert.Equal(year,
        Hear($"GPRMC,090000,A,5213.1,N,00012.3,E,5.0,90.0,{date},,,A").Only<Rmc>().Date!.Value.Year);

    [Theory]
    [InlineData("-13,00", true)]
    [InlineData("14,00", true)]
    [InlineData("15,00", false)]
    [InlineData("-15,00", false)]
    public void A_local_zone_is_one_that_there_is(string zone, bool read) =>
        Assert.Equal(read ? 1 : 0, Hear($"GPZDA,090000,21,06,2026,{zone}").Messages.Count);

    [Fact]
    public void With_a_fix_a_GSA_has_all_its_fields_without_one_it_may_be_short()
    {
        Refused("GPGSA,A,3,01,02,03,1.6,0.9,1.3", RejectReason.FieldCount);
        Assert.Equal(FixDimension.None, Hear("GPGSA,A,1").Only<Gsa>().Dimension);
    }

    [Fact]
    public void North_is_azimuth_0_and_a_satellite_of_strength_0_is_not_tracked()
    {
        Gsv gsv = Hear("GPGSV,1,1,02,02,05,360,11,03,21,174,00").Only<Gsv>();
        Assert.Equal(((short?)0, (short?)11), (gsv.Satellites[0].AzimuthDeg, gsv.Satellites[0].SnrDb));
        Assert.Equal(((short?)174, null), (gsv.Satellites[1].AzimuthDeg, gsv.Satellites[1].SnrDb));
    }

    [Fact]
    public void Speed_is_read_from_kilometres_an_hour_where_knots_are_blank() =>
        Assert.Equal(10, Hear("GPVTG,90.0,T,,M,,N,36.0,K,A").Only<Vtg>().SpeedMps!.Value, 1e-12);

    [Theory]
    [InlineData("F", true)]
    [InlineData("NNP", true)]
    [InlineData("NNN", false)]
    [InlineData("E", false)]
    public void One_system_with_a_fix_makes_a_GNS_a_fix(string modes, bool fix) => Assert.Equal(fix,
        Hear($"GNGNS,090000,5213.1,N,00012.3,E,{modes},08,0.9,345.2,45.9,,").Only<Gns>().AnyMode);
}
