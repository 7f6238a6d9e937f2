using System.Runtime.InteropServices;

namespace Groundstation.Benchmarks;

/// <summary>What a figure was measured on, and where the project's data lie.</summary>
internal static class Machine
{
    /// <summary>The processor's name, as the operating system tells it.</summary>
    public static string Processor()
    {
        const string CpuInfo = "/proc/cpuinfo";
        string? model = File.Exists(CpuInfo)
            ? File.ReadLines(CpuInfo).FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))
            : null;
        string name = model?[(model.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim()
            ?? Environment.GetEnvironmentVariable("PROCESSOR_IDENTIFIER") ?? "unknown processor";
        return $"{name}, {Environment.ProcessorCount} cores seen, {RuntimeInformation.ProcessArchitecture}";
    }

    /// <summary>Runtime and operating system.</summary>
    public static string Runtime() => $"{RuntimeInformation.FrameworkDescription}, {RuntimeInformation.OSDescription}";

    /// <summary>The project's root: the nearest folder above that holds the solution.</summary>
    public static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "groundstation.sln"))) return folder.FullName;
        throw new DirectoryNotFoundException("groundstation.sln is in none of the folders above; run from the project");
    }

    /// <summary>The bundled recordings of real receivers, by name.</summary>
    public static IEnumerable<byte[]> ReceiverLogs() =>
        Directory.GetFiles(Path.Combine(Root(), "tests", "Published", "data", "nmea"), "*.log")
            .Order(StringComparer.Ordinal).Select(File.ReadAllBytes);
}
