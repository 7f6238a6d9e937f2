using System.Buffers;
using System.Text;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Storage;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Groundstation.Io.Toml;

/// <summary>
/// What the readers of plan and scenario share: a file of bounded size, its syntax, and errors of exactly one line,
/// <c>FILE:LINE: KEY …: what is allowed</c>.
/// </summary>
/// <param name="file">The file's name, for the error line.</param>
/// <param name="kind">What it is, in words: <c>plan</c>, <c>scenario</c>.</param>
internal sealed class TomlFile(string file, string kind)
{
    /// <summary>Reads a file's text.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="kind">What it is, in words.</param>
    /// <param name="maxBytes">Largest size read.</param>
    /// <exception cref="UserErrorException">It is missing, cannot be read, or is too large.</exception>
    public static string Text(string path, string kind, int maxBytes)
    {
        if (Directory.Exists(path))
            throw new UserErrorException($"{path}: is a folder; name the {kind} (TOML) in it");
        try
        {
            return SmallFile.Text(path, maxBytes)
                ?? throw new UserErrorException($"{path}: too large for a {kind} (at most {maxBytes >> 20} MiB)");
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be read ({FileTrouble.Words(e)})", e);
        }
    }

    /// <summary>The text's syntax.</summary>
    /// <exception cref="UserErrorException">It is no TOML.</exception>
    public DocumentSyntax Parse(string text)
    {
        DocumentSyntax document;
        try
        {
            document = SyntaxParser.Parse(text, file, true);
        }
        catch (TomlException e)
        {
            // Brackets within brackets without end: no plan has them.
            throw new UserErrorException($"{file}: not TOML: {Cut(e.Message.Split('.')[0], 160)}", e);
        }

        catch (ArgumentOutOfRangeException e)
        {
            // The library fails where the text ends, or stops to be text, within an escape.
            throw new UserErrorException($"{file}:{LineOfEnd(text)}: not TOML: an escape is cut off", e);
        }

        if (!document.HasErrors)
            return document;
        DiagnosticMessage first = document.Diagnostics.First(d => d.Kind == DiagnosticMessageKind.Error);
        // A path of Windows within quotation marks: the library's own words for it say nothing of paths.
        string what = first.Message.StartsWith("Unexpected escape character", StringComparison.Ordinal)
            ? """a \ within "…" begins an escape: write a path with / or as 'C:\maps'""" : Cut(first.Message, 160);
        throw new UserErrorException($"{file}:{first.Span.Start.Line + 1}: not TOML: {what}");
    }

    private static int LineOfEnd(string text)
    {
        int at = 0;
        while (Rune.DecodeFromUtf16(text.AsSpan(at), out _, out int length) == OperationStatus.Done) at += length;
        return 1 + text.AsSpan(0, at).Count('\n');
    }

    /// <summary>The error for a key, and what is allowed.</summary>
    public UserErrorException Wrong(int line, string key, string allowed) => new($"{file}:{line}: {key}: {allowed}");

    /// <summary>The error for a key that is not known, with the nearest one that is.</summary>
    public UserErrorException Unknown(int line, string shown, string name, IEnumerable<string> known)
    {
        string[] all = [.. known.Distinct()];
        string nearest = all.MinBy(k => Nearness.Distance(name, k))!;
        string allowed = Nearness.Distance(name, nearest) <= Math.Max(2, name.Length / 3)
            ? $"did you mean {nearest}?"
            : all.Length <= 12 ? "allowed are " + string.Join(", ", all)
            : $"no key of a {kind}";
        return Wrong(line, shown + " unknown", allowed);
    }

    /// <summary>A key with its dots, without quotes.</summary>
    public static string NameOf(KeySyntax key)
    {
        string name = Part(key.Key!);
        foreach (DottedKeyItemSyntax dot in key.DotKeys)
            name += "." + Part(dot.Key!);
        return name;

        static string Part(BareKeyOrStringValueSyntax part) => part switch
        {
            StringValueSyntax quoted => quoted.Value ?? "",
            BareKeySyntax bare => bare.Key?.Text?.Trim() ?? "",
            _ => part.ToString().Trim(),
        };
    }

    /// <summary>A value as it stands in the file, cut at 40 characters.</summary>
    public static string Shown(ValueSyntax value)
    {
        // A comment behind the value belongs to its text here, but not to the value.
        string text = value is StringValueSyntax ? value.ToString().Trim() : value.ToString().Split('#')[0].Trim();
        return Cut(text, 40);
    }

    // The library quotes what it stumbled over: after an unclosed quotation mark that is the rest of the file.
    private static string Cut(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";
}
