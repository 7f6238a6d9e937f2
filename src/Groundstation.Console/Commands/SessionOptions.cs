using System.CommandLine;
using Groundstation.Console.Window;

namespace Groundstation.Console.Commands;

/// <summary>The options that <c>watch</c> and <c>replay</c> share.</summary>
/// <param name="flight">What <c>--flight</c> means to this command.</param>
/// <param name="kept">Which plan is taken where none is named.</param>
internal sealed class SessionOptions(string flight, string kept)
{
    /// <summary><c>--plan FILE</c>.</summary>
    public Option<string?> Plan { get; } = new("--plan")
    {
        Description = $"The flight's plan (TOML); default: {kept}, else values that are shown",
        HelpName = "FILE",
    };

    /// <summary><c>--flight DIR</c>.</summary>
    public Option<string?> Flight { get; } = new("--flight") { Description = flight, HelpName = "DIR" };

    /// <summary><c>--headless</c>.</summary>
    public Option<bool> Headless { get; } = new("--headless")
    { Description = "No screen: the same work, then a summary" };

    /// <summary><c>--ascii</c>; where the locale has no UTF-8 it is the default.</summary>
    public Option<bool> Ascii { get; } = new("--ascii")
    {
        Description = "Plots and rules in ASCII instead of braille and lines",
        DefaultValueFactory = _ => ConsoleRunner.WantsAscii(Environment.GetEnvironmentVariable),
    };
}
