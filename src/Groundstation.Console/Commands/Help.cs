namespace Groundstation.Console.Commands;

/// <summary>A command's help text.</summary>
internal static class Help
{
    /// <summary>What it does, with an example that can be typed as it stands.</summary>
    public static string With(string does, params string[] examples) =>
        does + Environment.NewLine + Environment.NewLine
        + string.Join(Environment.NewLine, examples.Select(e => "Example: " + e));
}
