using System.Globalization;
using System.Text;
using Groundstation.Console.Commands;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary>Texts from outside in what commands print: nothing that a terminal obeys, nothing unseen.</summary>
public sealed class HostileTextTests : IDisposable
{
    // Clear the screen, set its title, ring, turn the writing round, an eight-bit escape.
    private const string Ill = "x\u001b[2J\u001b]0;t\a\u202e\u200b\u009b1m";

    private readonly string _folder = Directory.CreateTempSubdirectory("groundstation-hostile-").FullName;

    private string Here => Path.Combine(_folder, Ill);

    public HostileTextTests() => Directory.CreateDirectory(Here);

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Names_of_files_stations_and_areas()
    {
        File("night.csv", $"# sounding {Ill} 2026-06-21T06:00Z\nheight_m,from_deg,speed_mps\n200,270,5\n34000,270,5\n");
        File("lake.geojson", """
            {"type":"Feature","properties":{"name":"Long\u001b[2J\u202e Lake","kind":"\u0007water"},"geometry":
             {"type":"Polygon","coordinates":[[[-45,40],[-15,40],[-15,56],[-45,56],[-45,40]]]}}
            """);
        string plan = File("plan.toml", "winds = [\"night.csv\"]\n[launch]\nlatitude_deg = 48\nlongitude_deg = -30\n"
            + "height_m = 200\n[landing]\nkeep_out = [\"lake.geojson\"]\n");
        (int code, string output) = Run("plan", plan, "--launch", "2026-06-21T07:00Z");
        Assert.Equal(0, code);
        Assert.Contains("Lake", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[flight]\nname = \"a\\u202eb\"", "flight.name")]
    [InlineData("winds = [\"a\\u001b[2J.csv\"]", "winds")]
    [InlineData("[landing]\nkeep_out = [\"a\\u001b[2J.geojson\"]", "landing.keep_out")]
    [InlineData("[callouts]\nchase = \"a\\u202eb\"", "callouts.chase")]
    public void Texts_in_a_plan(string text, string says)
    {
        (int code, string output) = Run("plan", File("plan.toml", text));
        Assert.Equal(1, code);
        Assert.Contains(says, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Sources_and_lines_of_a_recording()
    {
        string recording = File("log.nmea", string.Concat(Enumerable.Range(0, 40).Select(i =>
            Tagged("../../x" + Ill, $"GPGGA,1200{i:00}.00,4815.000,N,03030.000,W,1,10,0.9,{200 + i}.0,M,50.0,M,,")
            + $"{Ill}\r\n$GPTXT,01,01,02,{Ill}*00\r\n")));
        (int code, string output) = Run("inspect", recording);
        Assert.Equal(0, code);
        Assert.Contains("radio1", output, StringComparison.Ordinal);
        (code, output) = Run("replay", recording, "--headless", "--rate", "max", "--flight", Path.Combine(Here, "f"));
        Assert.Equal(0, code);
        Assert.Contains("40 believed", output, StringComparison.Ordinal);
        // No file outside the folder, none named by a source.
        Assert.Equal(["f", "log.nmea"],
            Directory.GetFileSystemEntries(Here).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal([Here], Directory.GetFileSystemEntries(_folder));
    }

    [Theory]
    [InlineData("plan", "/dev/zero")]
    [InlineData("simulate", "/dev/zero")]
    public void A_device_that_never_ends_is_no_file(string command, string path)
    {
        if (!System.IO.File.Exists(path)) Assert.Skip("needs /dev/zero");
        (int code, string output) = Run(command, path);
        Assert.Equal(1, code);
        Assert.Contains("too large", output, StringComparison.Ordinal);
        (code, output) = Run("plan", File("plan.toml", $"winds = [\"{path}\"]\n"));
        Assert.Equal(1, code);
        Assert.Contains("16 MiB at most", output, StringComparison.Ordinal);
    }

    private static (int Code, string Output) Run(params string[] args)
    {
        StringWriter to = new();
        int code = CommandLine.Run(args, to, to);
        string text = to.ToString();
        Assert.DoesNotContain(text, c => c is not ('\n' or '\r') && char.GetUnicodeCategory(c)
            is UnicodeCategory.Control or UnicodeCategory.Format);
        return (code, text);
    }

    private static string Tagged(string source, string sentence)
    {
        string tag = $"s:{source},c:1782000000";
        return $"\\{tag}*{Sum(tag):X2}\\${sentence}*{Sum(sentence):X2}\r\n";
    }

    private static int Sum(string text) => Encoding.UTF8.GetBytes(text).Aggregate(0, (sum, b) => sum ^ b);

    private string File(string name, string text)
    {
        string path = Path.Combine(Here, name);
        System.IO.File.WriteAllText(path, text);
        return path;
    }
}
