using System.Diagnostics;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>
/// A host of its own (a Linux network namespace) with a server on port 2000, whose answers can be made to go nowhere:
/// a peer that loses its power or its radio link sends no farewell.
/// </summary>
internal sealed class FarHost : IDisposable
{
    public const string Address = "10.213.77.2";
    private const string Name = "groundstation-far", Near = "10.213.77.1";
    private readonly Process _server;

    /// <summary>Makes it, or skips the test.</summary>
    public FarHost()
    {
        if (!OperatingSystem.IsLinux() || !Run("netns", "add", Name))
            Assert.Skip("needs ip and the right to make a network namespace");
        _ = Run("link", "add", "gsnear", "type", "veth", "peer", "name", "gsfar", "netns", Name)
            && Run("addr", "add", Near + "/30", "dev", "gsnear") && Run("link", "set", "gsnear", "up")
            && Run("-n", Name, "addr", "add", Address + "/30", "dev", "gsfar")
            && Run("-n", Name, "link", "set", "gsfar", "up");
        try
        {
            _server = Process.Start(new ProcessStartInfo("ip",
                ["netns", "exec", Name, "socat", "-u", "-", "TCP-LISTEN:2000,reuseaddr,fork"])
            { RedirectStandardInput = true })!;
        }
        catch
        {
            Run("netns", "del", Name);
            throw;
        }
    }

    /// <summary>Sends a text to whoever is connected, or is next.</summary>
    public async Task Say(string text)
    {
        await _server.StandardInput.WriteAsync(text);
        await _server.StandardInput.FlushAsync();
    }

    /// <summary>From now on nothing that it sends arrives.</summary>
    public void Vanish() => Assert.True(Run("-n", Name, "route", "add", "blackhole", Near + "/32"));

    /// <summary>It can be reached again.</summary>
    public void Return() => Assert.True(Run("-n", Name, "route", "del", "blackhole", Near + "/32"));

    public void Dispose()
    {
        _server.Kill(entireProcessTree: true);
        _server.Dispose();
        Run("netns", "del", Name);
    }

    private static bool Run(params string[] arguments)
    {
        try
        {
            using Process ip = Process.Start(new ProcessStartInfo("ip", arguments) { RedirectStandardError = true })!;
            ip.WaitForExit();
            return ip.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }
}
