using Groundstation.Core.Receive;
using Groundstation.Io.Sources;
using Microsoft.Extensions.Time.Testing;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>How often a source is tried: soon enough after it is back, and without hammering it.</summary>
public class PumpPaceTests
{
    private readonly FakeTimeProvider _time = new();
    private int _tries;

    [Fact]
    public async Task A_source_that_is_gone_is_tried_again_every_second_however_long_it_is_gone()
    {
        await Run(60, () => throw new SourceTroubleException("absent"));
        Assert.InRange(_tries, 20, 240);
    }

    [Fact]
    public async Task A_server_that_accepts_and_hangs_up_at_once_is_called_four_times_a_second_at_most()
    {
        await Run(10, () => new OpenedSource(static _ => Task.FromResult(0), static () => { }));
        Assert.InRange(_tries, 2, 41);
    }

    /// <summary>Runs a pump for so many seconds of its clock, a tenth at a time.</summary>
    private async Task Run(int seconds, Func<OpenedSource> open)
    {
        using CancellationTokenSource stop = new();
        SourcePump pump = new(new SourceId("radio1"), new StandardInputAddress(), _time, (_, _) =>
        {
            _tries++;
            return Task.FromResult(open());
        });
        Task running = pump.RunAsync(new Deaf(), stop.Token);
        for (int i = 0; i < 10 * seconds; i++)
        {
            _time.Advance(TimeSpan.FromMilliseconds(100));
            await Task.Delay(1, TestContext.Current.CancellationToken);
        }

        await stop.CancelAsync();
        await running;
    }

    private sealed class Deaf : ISourceSink
    {
        public void Bytes(SourceId source, ReadOnlySpan<byte> bytes)
        {
        }

        public void Link(SourceId source, LinkState state, string why)
        {
        }
    }
}
