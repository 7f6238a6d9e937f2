using System.Diagnostics;
using System.Globalization;
using System.Text;
using Groundstation.Core.Quantities;
using Groundstation.Io.Inspection;

namespace Groundstation.Benchmarks;

/// <summary>
/// Inspects made-up recordings of growing size: seconds a megabyte, and the largest heap seen, which must not grow with
/// the file. Arguments: megabytes of each recording (10 100 by default).
/// </summary>
internal static class InspectBenchmark
{
    public static int Run(string[] args)
    {
        int[] sizes = args.Length > 0 ? [.. args.Select(a => int.Parse(a, CultureInfo.InvariantCulture))] : [10, 100];
        string path = Path.GetTempFileName();
        try
        {
            foreach (int megabytes in sizes)
            {
                Write(path, megabytes * 1_000_000L);
                GC.Collect();
                var clock = Stopwatch.StartNew();
                InspectionReport report = RecordingInspection.Inspect(path);
                double seconds = clock.Elapsed.TotalSeconds;
                long held = GC.GetGCMemoryInfo(GCKind.Any).HeapSizeBytes;
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{megabytes,5} MB {report.Lines,9} lines {seconds,7:F2} s {megabytes / seconds,6:F0} MB/s "
                    + $"heap after the last collection {held / 1e6:F1} MB"));
            }
        }
        finally
        {
            File.Delete(path);
        }

        return 0;
    }

    /// <summary>A climb and descent again and again, four sentences a second with TAG blocks.</summary>
    private static void Write(string path, long bytes)
    {
        using StreamWriter to = new(path, append: false, Encoding.ASCII, 1 << 16) { NewLine = "\r\n" };
        Instant at = Instant.FromUtc(new DateOnly(2026, 6, 21), new TimeSpan(9, 0, 0));
        for (long written = 0, second = 0; written < bytes; second++, at = at.PlusSeconds(1))
        {
            string time = at.ToDateTime().ToString("HHmmss.ff", CultureInfo.InvariantCulture);
            string date = at.ToDateTime().ToString("ddMMyy", CultureInfo.InvariantCulture);
            long phase = second % 12_000;
            double heightM = 300 + 5.0 * (phase < 6000 ? phase : 12_000 - phase);
            foreach (string body in new[]
            {
                string.Create(CultureInfo.InvariantCulture,
                    $"GPGGA,{time},4815.00000,N,03030.00000,W,1,09,0.9,{heightM:F1},M,50.1,M,,"),
                "GPGSA,A,3,01,02,03,04,05,06,07,08,09,,,,1.8,0.9,1.5",
                $"GPRMC,{time},A,4815.00000,N,03030.00000,W,0.5,90.0,{date},,,A",
                "GPGSV,1,1,04,01,45,123,40,02,30,200,41,03,20,300,38,04,10,010,35",
            })
            {
                string tag = Checked($"s:radio1,c:{at.UnixMilliseconds}");
                string line = $"\\{tag}\\${Checked(body)}";
                to.WriteLine(line);
                written += line.Length + 2;
            }
        }
    }

    private static string Checked(string body)
    {
        int sum = 0;
        foreach (char c in body)
            sum ^= c;
        return $"{body}*{sum:X2}";
    }
}
