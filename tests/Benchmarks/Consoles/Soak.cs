using System.Diagnostics;
using System.Globalization;

namespace Groundstation.Benchmarks.Consoles;

/// <summary>
/// <c>soak PROGRAM [HOURS]</c>: a flight of 24 hours (a long float) replayed as fast as it goes, with memory and open
/// files at every tenth of it and every epoch in the log.
/// </summary>
internal static class Soak
{
    public static int Run(string[] args)
    {
        int hours = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 24;
        int seconds = hours * 3600;
        string folder = Directory.CreateTempSubdirectory("groundstation-soak-").FullName;
        string log = Path.Combine(folder, "log.nmea"), flight = Path.Combine(folder, "f");
        using (StreamWriter to = new(log))
        {
            for (int s = 0; s < seconds; s++)
                to.Write(Feeder.Epoch(s, Math.Min(25_000, 200 + 5.0 * s) + Math.Sin(s / 300.0) * 20));
        }

        using Process run = Process.Start(new ProcessStartInfo(args[0],
            ["replay", log, "--headless", "--rate", "max", "--flight", flight])
        { RedirectStandardOutput = true })!;
        string fixes = Path.Combine(flight, "fixes.csv");
        long step = 0;
        List<string> seen = [];
        while (!run.WaitForExit(200))
        {
            // A row has about 170 bytes.
            long done = File.Exists(fixes) ? new FileInfo(fixes).Length / 170 : 0;
            if (done < step) continue;
            step = done + seconds / 10;
            try
            {
                string rss = File.ReadLines($"/proc/{run.Id}/status").First(l => l.StartsWith("VmRSS", StringComparison.Ordinal));
                int handles = Directory.GetFileSystemEntries($"/proc/{run.Id}/fd").Length;
                seen.Add($"{int.Parse(new string([.. rss.Where(char.IsDigit)]), CultureInfo.InvariantCulture) / 1024} MB {handles} files");
            }
            catch (Exception e) when (e is IOException or InvalidOperationException)
            {
                break;
            }
        }

        run.StandardOutput.ReadToEnd();
        int rows = File.ReadLines(fixes).Count() - 1;
        Console.WriteLine($"{hours} h of flight as fast as it goes: {rows} of {seconds} epochs in fixes.csv; "
            + $"memory and open files on the way: {string.Join(", ", seen)}");
        Directory.Delete(folder, true);
        return rows == seconds ? 0 : 1;
    }
}
