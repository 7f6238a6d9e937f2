using Groundstation.Console.Commands;
using Xunit;

namespace Groundstation.Console.Tests.Commands;

/// <summary>Runs the program's commands in a folder of its own.</summary>
public abstract class CommandTest : IDisposable
{
    private protected readonly string _folder = Directory.CreateTempSubdirectory("groundstation-tests-").FullName;

    public void Dispose()
    {
        Directory.Delete(_folder, true);
        GC.SuppressFinalize(this);
    }

    private protected static (int Code, string Output, string Error) Run(params string[] args)
    {
        StringWriter output = new(), error = new();
        int code = CommandLine.Run(args, output, error);
        return (code, output.ToString(), error.ToString());
    }

    private protected string FileWith(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    private protected static void OneLine(string error)
    {
        Assert.EndsWith(Environment.NewLine, error);
        Assert.DoesNotContain('\n', error.TrimEnd('\r', '\n'));
        Assert.DoesNotContain("   at ", error);
        Assert.StartsWith("groundstation", error);
    }

    private protected static string Unwrapped(string sheet) =>
        System.Text.RegularExpressions.Regex.Replace(sheet, @"\s+", " ");
}
