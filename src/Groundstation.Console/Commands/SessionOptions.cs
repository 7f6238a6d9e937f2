using System.CommandLine;

namespace Groundstation.Console.Commands;

/// <summary>The options that <c>watch</c> and <c>replay</c> share.</summary>
internal sealed class SessionOptions
{
    /// <summary><c>--plan FILE</c>.</summary>
    public Option<string?> Plan { get; } = new("--plan")
    { Description = "The flight's plan (TOML); without one defaults are used and shown", HelpName = "FILE" };

    /// <summary><c>--flight DIR</c>.</summary>
    public Option<string?> Flight { get; } = new("--flight")
    { Description = "Folder for the flight's logs", HelpName = "DIR" };

    /// <summary><c>--headless</c>.</summary>
    public Option<bool> Headless { get; } = new("--headless")
    { Description = "No screen: the same work, then a summary" };

    /// <summary><c>--ascii</c>.</summary>
    public Option<bool> Ascii { get; } = new("--ascii")
    { Description = "Plots and rules in ASCII instead of braille and lines" };
}
