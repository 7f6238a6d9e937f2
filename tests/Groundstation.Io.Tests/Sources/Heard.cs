using System.Diagnostics;
using System.Text;
using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>Remembers what came, and waits for what should.</summary>
internal sealed class Heard : ISourceSink
{
    private static readonly TimeSpan _longest = TimeSpan.FromSeconds(40);
    private readonly StringBuilder _text = new();
    private readonly List<string> _links = [];
    private LinkState? _state;

    public IReadOnlyList<string> Links
    {
        get
        {
            lock (_links)
                return [.. _links];
        }
    }

    public string AllText
    {
        get
        {
            lock (_links)
                return _text.ToString();
        }
    }

    public void Bytes(SourceId source, ReadOnlySpan<byte> bytes)
    {
        lock (_links)
            _text.Append(Encoding.Latin1.GetString(bytes));
    }

    public void Link(SourceId source, LinkState state, string why)
    {
        lock (_links)
        {
            _state = state;
            _links.Add($"{state} {why}");
        }
    }

    public Task State(LinkState state, CancellationToken limit) => Until(() => _state == state, $"{state}", limit);

    public Task Said(string link, CancellationToken limit) => Until(() => _links.Contains(link), link, limit);

    public async Task Text(string text, CancellationToken limit)
    {
        await Until(() => _text.Length >= text.Length, $"{text.Length} bytes", limit);
        Assert.Equal(text, AllText);
    }

    private async Task Until(Func<bool> holds, string what, CancellationToken limit)
    {
        Stopwatch waited = Stopwatch.StartNew();
        while (true)
        {
            lock (_links)
            {
                if (holds())
                    return;
            }

            Assert.True(waited.Elapsed < _longest,
                $"waited for {what}; came {_text.Length} bytes and {string.Join(" | ", Links)}");
            await Task.Delay(5, limit);
        }
    }
}

/// <summary>Pumps that run until the test ends them.</summary>
public abstract class PumpTests : IDisposable
{
    private protected static readonly SourceId Radio = new("radio1");
    private readonly CancellationTokenSource _stop = new();

    private protected TempFolder Temp { get; } = new();

    private protected Heard Heard { get; } = new();

    private protected CancellationToken Limit { get; } = TestContext.Current.CancellationToken;

    /// <inheritdoc/>
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        _stop.Dispose();
        Temp.Dispose();
    }

    private protected Task Start(string address) =>
        Start(new SourcePump(Radio, SourceAddress.Parse(address), TimeProvider.System), Heard);

    private protected Task Start(SourcePump pump, ISourceSink to) => pump.RunAsync(to, _stop.Token);

    /// <summary>Whatever a source does, its pump ends within two seconds when it is asked to.</summary>
    private protected async Task Ends(Task pump)
    {
        await _stop.CancelAsync();
        await pump.WaitAsync(TimeSpan.FromSeconds(2), Limit);
    }
}
