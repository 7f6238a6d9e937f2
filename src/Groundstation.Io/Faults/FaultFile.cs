using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Groundstation.Io.Folders;
using Groundstation.Io.PlanFile;
using Groundstation.Io.Storage;
using Groundstation.Io.Toml;
using Tomlyn.Syntax;
using static Groundstation.Io.Toml.TomlFile;

namespace Groundstation.Io.Faults;

/// <summary>Faults and the seed of their draws, as a file holds them (TOML).</summary>
/// <param name="Seed">Of the draws.</param>
/// <param name="Faults">The faults, in order.</param>
public sealed record FaultFile(ulong Seed, ImmutableArray<Fault> Faults)
{
    /// <summary>No faults.</summary>
    public static FaultFile None { get; } = new(1, []);

    /// <summary>Reads a file.</summary>
    /// <exception cref="UserErrorException">It is missing, no TOML, or has a wrong key or value.</exception>
    public static FaultFile Read(string path) => Parse(Text(path, "fault file", 1 << 20), path);

    /// <summary>Reads text; <paramref name="file"/> is only for the error line.</summary>
    /// <exception cref="UserErrorException">It is no TOML, or has a wrong key or value.</exception>
    public static FaultFile Parse(string text, string file)
    {
        TomlFile toml = new(file, "fault file");
        DocumentSyntax document = toml.Parse(text);
        ulong seed = 1;
        foreach (KeyValueSyntax entry in document.KeyValues)
        {
            int line = entry.Span.Start.Line + 1;
            string name = NameOf(entry.Key!);
            if (name != "seed")
                throw toml.Unknown(line, name, name, ["seed"]);
            seed = entry.Value is IntegerValueSyntax { Value: >= 0 } value ? (ulong)value.Value
                : throw toml.Wrong(line, $"seed = {Shown(entry.Value!)}", "a whole number from 0");
        }

        ImmutableArray<Fault>.Builder faults = ImmutableArray.CreateBuilder<Fault>();
        foreach (TableSyntaxBase table in document.Tables)
        {
            int line = table.Span.Start.Line + 1;
            string section = NameOf(table.Name!);
            if (section != "fault" || table is not TableArraySyntax)
                throw toml.Wrong(line, $"[{section}]", "faults are written [[fault]], as often as needed");
            FaultKeys keys = new();
            foreach (KeyValueSyntax entry in table.Items)
            {
                string name = NameOf(entry.Key!);
                int at = entry.Span.Start.Line + 1;
                string value = entry.Value switch
                {
                    StringValueSyntax s => s.Value ?? "",
                    { } v when PlanKey.Real(v) is { } n => n.ToString("R", CultureInfo.InvariantCulture),
                    _ => "",
                };
                if (!FaultKeys.Names.Contains(name))
                    throw toml.Unknown(at, "fault." + name, name, FaultKeys.Names);
                if (keys.Take(name, value) is { } allowed)
                    throw toml.Wrong(at, $"fault.{name} = {Shown(entry.Value!)}", allowed);
            }

            (Fault? fault, string missing) = keys.Fault();
            faults.Add(fault ?? throw toml.Wrong(line, "[[fault]]", missing));
        }

        return new FaultFile(seed, faults.ToImmutable());
    }

    /// <summary>A fault's word: <c>stalled-fix</c>.</summary>
    public static string Word(FaultKind kind) => Cells.Word(kind);

    /// <summary>The text of a file that holds these faults.</summary>
    public string ToText()
    {
        StringBuilder text = new("# Faults put into a recording: groundstation replay RECORDING --faults THIS_FILE\n"
            + "# A received.nmea beside this file has them already: they belong to the recording that it came from.\n");
        text.Append(CultureInfo.InvariantCulture, $"seed = {Seed}\n");
        foreach (Fault f in Faults)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n[[fault]]\nkind = \"{Word(f.Kind)}\"\n");
            text.Append(CultureInfo.InvariantCulture, $"{FaultKeys.Beginning(f)}\n");
            if (f.ForS is { } seconds)
                text.Append(CultureInfo.InvariantCulture, $"for_s = {seconds:0.###}\n");
            if (f.Source is { } source)
                text.Append(CultureInfo.InvariantCulture, $"source = \"{source}\"\n");
            text.Append(f.Kind switch
            {
                FaultKind.Damaged => string.Create(CultureInfo.InvariantCulture, $"share = {f.Share:0.###}\n"),
                FaultKind.AltitudeLimit => string.Create(CultureInfo.InvariantCulture, $"limit_m = {f.LimitM:0}\n"),
                FaultKind.Jumps => string.Create(CultureInfo.InvariantCulture,
                    $"every_s = {f.EveryS:0.###}\nby_m = {f.ByM:0}\n"),
                FaultKind.WrongDate => string.Create(CultureInfo.InvariantCulture, $"days = {f.Days}\n"),
                _ => "",
            });
        }

        return text.ToString();
    }

    /// <summary>Writes that file.</summary>
    /// <exception cref="UserErrorException">It cannot be written.</exception>
    public void Write(string path)
    {
        try
        {
            File.WriteAllText(path, ToText());
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{path}: cannot be written ({FileTrouble.Words(e)})", e);
        }
    }
}
