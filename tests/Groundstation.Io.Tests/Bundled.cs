using System.Runtime.CompilerServices;

namespace Groundstation.Io.Tests;

/// <summary>The flights, exercises and scenarios under <c>recordings/</c>.</summary>
internal static class Bundled
{
    /// <summary>Full path of one of them, or of a file in it.</summary>
    public static string Path(params string[] parts) => System.IO.Path.GetFullPath(System.IO.Path.Combine([Root(), .. parts]));

    private static string Root([CallerFilePath] string here = "") =>
        System.IO.Path.Combine(System.IO.Path.GetDirectoryName(here)!, "..", "..", "recordings");
}
