using Groundstation.Console.Commands;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

public sealed class CommandLineTests : CommandTest
{
    [Theory]
    [InlineData("watch")]
    [InlineData("replay")]
    [InlineData("instruct")]
    [InlineData("plan")]
    [InlineData("simulate")]
    [InlineData("inspect")]
    [InlineData("report")]
    public void Every_command_has_help_with_an_example(string command)
    {
        (int code, string output, string error) = Run(command, "--help");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("Examples:", output);
        Assert.Contains("  groundstation " + command + " ", output);
    }

    [Fact]
    public void Without_a_command_the_help_is_shown()
    {
        (int code, string output, _) = Run();
        Assert.Equal(0, code);
        foreach (string command in (string[])["watch", "replay", "plan", "simulate", "inspect", "report"])
            Assert.Contains(command, output);
        // What an instructor may type stands in that command's own help.
        Assert.DoesNotContain("altitude_limit", output.Replace('-', '_'));
        Assert.Contains("altitude-limit", Run("instruct", "--help").Output);
    }

    [Theory]
    [InlineData("bogus")]
    [InlineData("replay")]
    [InlineData("replay", "a", "b")]
    [InlineData("replay", "a", "--rate", "0")]
    [InlineData("replay", "a", "--rate", "-1")]
    [InlineData("replay", "a", "--rate", "fast")]
    [InlineData("watch")]
    [InlineData("watch", "--from")]
    [InlineData("watch", "--from", "carrier-pigeon:7")]
    [InlineData("watch", "--from", "-", "--chase", "tcp:nowhere")]
    [InlineData("plan")]
    public void Wrong_usage_is_2_and_one_line(params string[] args)
    {
        (int code, string output, string error) = Run(args);
        Assert.Equal((2, ""), (code, output));
        OneLine(error);
        Assert.Contains("--help", error);
    }

    [Theory]
    [InlineData("replay", "/nowhere/at/all")]
    [InlineData("plan", "/nowhere/at/all")]
    [InlineData("simulate", "/nowhere/at/all")]
    [InlineData("inspect", "x")]
    [InlineData("report", "x")]
    public void A_failure_is_1_and_one_line_that_names_what(params string[] args)
    {
        (int code, _, string error) = Run(args);
        Assert.Equal(1, code);
        OneLine(error);
        Assert.Contains(args[1], error);
    }

    [Theory]
    [InlineData("--at", "burst")]
    [InlineData("--instructor", "drill.sock")]
    public void What_needs_a_screen_is_not_passed_over_without_one(string option, string value)
    {
        (int code, string output, string error) = Run("replay", BundledFlights.File("clean", "flight.nmea"),
            "--headless", "--rate", "max", option, value, "--flight", Path.Combine(_folder, "none"));
        Assert.Equal((1, "", $"groundstation: {option} needs the console on a screen; leave it out without one"),
            (code, output, error.TrimEnd()));
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder));
    }

    [Fact]
    public void A_folder_in_the_place_of_a_file_is_called_a_folder()
    {
        Assert.Contains(": is a folder; name the plan (TOML) in it", Run("plan", _folder).Error);
        Assert.Contains(": is a folder; name the scenario (TOML) in it", Run("simulate", _folder).Error);
    }

    [Fact]
    public void A_wrong_share_is_told_the_forms_of_a_share()
    {
        (int code, _, string error) = Run("watch", "--from", "-", "--share=foo");
        Assert.Equal(2, code);
        Assert.Contains("share 'foo': nothing (a broker on this computer's loopback", error);
        Assert.DoesNotContain("serial:", error);
    }

    [Fact]
    public void A_flight_that_cannot_be_shared_leaves_no_folder()
    {
        using System.Net.Sockets.TcpListener busy = new(System.Net.IPAddress.Loopback, 0);
        busy.Start();
        string folder = Path.Combine(_folder, "f");
        (int code, _, string error) = Run("watch", "--from", "udp:1", "--headless", "--flight", folder,
            $"--share=listen:{((System.Net.IPEndPoint)busy.LocalEndpoint).Port}/x");
        Assert.Equal(1, code);
        Assert.Contains("cannot be listened on (busy", error);
        OneLine(error);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public void Nothing_in_a_file_name_reaches_the_terminal_raw()
    {
        (_, _, string error) = Run("plan", "/nowhere/\u001b[2J\n\u0007x");
        OneLine(error);
        Assert.DoesNotContain('\u001b', error);
        Assert.DoesNotContain('\u0007', error);
    }

    [Fact]
    public void A_headless_replay_writes_the_flight_folder_and_a_summary()
    {
        string log = FileWith("log.nmea", "$GPGGA,120000.00,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*69\r\n");
        string flight = Path.Combine(_folder, "flight");
        (int code, string output, string error) = Run("replay", log, "--headless", "--rate", "max", "--flight", flight);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("fixes:", output);
        Assert.Contains("landing estimate:", output);
        foreach (string file in (string[])["received.nmea", "fixes.csv", "winds.csv", "landing.csv", "alarms.csv",
            "callouts.csv", "plan.toml"])
            Assert.True(File.Exists(Path.Combine(flight, file)), file);
        Assert.Contains("$GPGGA,120000.00", File.ReadAllText(Path.Combine(flight, "received.nmea")));
    }
}
