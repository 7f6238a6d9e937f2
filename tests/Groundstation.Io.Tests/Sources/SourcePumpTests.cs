using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>Sources that end for good.</summary>
public sealed class SourcePumpTests : PumpTests
{
    [Fact]
    public async Task Standard_input_ends_for_good()
    {
        MemoryStream input = new(Bytes.Of("x\r\ny"));
        await Start(new SourcePump(Radio, new StandardInputAddress(), TimeProvider.System,
            (_, _) => Task.FromResult(Openers.Standard(input))), Heard);
        Assert.Equal("x\r\ny", Heard.AllText);
        Assert.Equal(["Opening ", "Up ", "Ended end of input"], Heard.Links);
    }

    [Fact]
    public async Task What_no_driver_should_throw_ends_that_source_and_is_told()
    {
        await Start(new SourcePump(Radio, SourceAddress.Parse("serial:/dev/none"), TimeProvider.System,
            (_, _) => throw new DllNotFoundException("its library is missing")), Heard);
        Assert.Equal(["Opening ", "Ended cannot be used: its library is missing"], Heard.Links);
    }
}
