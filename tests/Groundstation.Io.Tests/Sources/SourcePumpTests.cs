using Groundstation.Io.Sources;
using Xunit;

namespace Groundstation.Io.Tests.Sources;

/// <summary>Standard input.</summary>
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
}
