namespace Groundstation.Io.PlanFile;

/// <summary>The commented plan that a new flight starts from.</summary>
public static class ExamplePlan
{
    /// <summary>Its text, with every key.</summary>
    public static string Text
    {
        get
        {
            using StreamReader text = new(typeof(ExamplePlan).Assembly.GetManifestResourceStream("example-plan.toml")!);
            return text.ReadToEnd();
        }
    }
}
