using System.ComponentModel;
using System.Diagnostics;
using System.Runtime.CompilerServices;
using Groundstation.Console.Commands;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary><c>report</c> as a user gives it, and its page as a browser without a network shows it.</summary>
public sealed class ReportCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("groundstation-tests-").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void A_bare_log_gets_its_report_beside_it_and_a_second_run_replaces_it()
    {
        string log = Path.Combine(_folder, "log.nmea");
        File.WriteAllText(log, "$GPGGA,120000.00,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*69\r\n");
        for (int run = 0; run < 2; run++)
        {
            (int code, string output, string error) = Run("report", log);
            Assert.Equal((0, ""), (code, error));
            Assert.StartsWith("report: " + Path.Combine(_folder, "log-report", "report.html"), output);
        }

        Assert.True(File.Exists(Path.Combine(_folder, "log-report", "flight.geojson")));
    }

    [Fact]
    public void An_empty_folder_an_empty_recording_and_a_wrong_place_are_told_in_one_line()
    {
        Fails(1, "no flight.nmea or received.nmea", "report", _folder);
        File.WriteAllText(Path.Combine(_folder, "received.nmea"), "");
        Fails(1, "holds no line", "report", _folder);
        Fails(2, "--found", "report", _folder, "--found", "91,0");
        File.WriteAllText(Path.Combine(_folder, "received.nmea"), "x\r\n");
        File.WriteAllText(Path.Combine(_folder, "file"), "");
        Fails(1, "--out", "report", _folder, "--out", Path.Combine(_folder, "file"));
    }

    [Fact]
    public void A_browser_without_a_network_shows_the_page_says_nothing_and_prints_it()
    {
        if (!OnPath("chromium")) Assert.Skip("needs chromium");
        string report = Path.Combine(_folder, "report");
        Assert.Equal(0, Run("report", Recording("silent-descent"), "--out", report).Code);
        string page = "file://" + Path.Combine(report, "report.html");
        (string shown, string said) = Browse("--dump-dom", page);
        Assert.Contains("Fallowmere 2", shown);
        Assert.Contains("</html>", shown);
        Assert.DoesNotContain("CONSOLE", said);
        string pdf = Path.Combine(_folder, "report.pdf");
        Browse("--print-to-pdf=" + pdf, page);
        Assert.True(new FileInfo(pdf).Length > 50_000, "the printed page is nearly empty");
        if (!OnPath("pdftotext")) return;
        (string printed, _) = Start("pdftotext", "-layout", pdf, "-");
        Assert.Contains("Wind column", printed);
        Assert.Contains("Cautions, and who decides", printed);
    }

    [Fact]
    public void The_browser_would_have_said_something()
    {
        if (!OnPath("chromium")) Assert.Skip("needs chromium");
        string page = Path.Combine(_folder, "bad.html");
        File.WriteAllText(page, "<!DOCTYPE html><script>console.error('broken')</script>");
        Assert.Contains("CONSOLE", Browse("--dump-dom", "file://" + page).Error);
    }

    private (string Output, string Error) Browse(params string[] what) => Start("chromium",
    [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync", "--enable-logging=stderr",
        "--user-data-dir=" + Path.Combine(_folder, "browser"), .. what,
    ]);

    private static (string Output, string Error) Start(string program, params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (output, error.GetAwaiter().GetResult());
    }

    private static bool OnPath(string program)
    {
        try
        {
            Start(program, "--version");
            return true;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }

    private static void Fails(int with, string about, params string[] args)
    {
        (int code, _, string error) = Run(args);
        Assert.Equal(with, code);
        Assert.Contains(about, error);
        Assert.DoesNotContain('\n', error.TrimEnd('\r', '\n'));
    }

    private static (int Code, string Output, string Error) Run(params string[] args)
    {
        StringWriter output = new(), error = new();
        int code = CommandLine.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }

    private static string Recording(string name, [CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "recordings", name));
}
