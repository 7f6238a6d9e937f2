namespace Groundstation.Core.Callouts;

/// <summary>A piece of a callout in both its forms.</summary>
/// <param name="Shown">As a screen shows it, with figures.</param>
/// <param name="Spoken">As it is said, in words.</param>
internal readonly record struct Phrase(string Shown, string Spoken)
{
    /// <summary>Words that are the same in both forms.</summary>
    public static implicit operator Phrase(string words) => new(words, words);

    /// <summary>One behind the other, with a blank between them.</summary>
    public static Phrase operator +(Phrase a, Phrase b) => new($"{a.Shown} {b.Shown}", $"{a.Spoken} {b.Spoken}");

    /// <summary>One behind the other, with a comma between them.</summary>
    public Phrase Then(Phrase next) => new($"{Shown}, {next.Shown}", $"{Spoken}, {next.Spoken}");

    /// <summary>As a sentence: capital first, full stop last.</summary>
    public Phrase Sentence() => new(Capital(Shown) + ".", Capital(Spoken) + ".");

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
