namespace Groundstation.Io.Scenarios;

/// <summary>The commented scenario that a new simulation starts from.</summary>
public static class ExampleScenario
{
    /// <summary>Its text, with every key.</summary>
    public static string Text
    {
        get
        {
            const string Name = "example-scenario.toml";
            using StreamReader text = new(typeof(ExampleScenario).Assembly.GetManifestResourceStream(Name)!);
            return text.ReadToEnd();
        }
    }
}
