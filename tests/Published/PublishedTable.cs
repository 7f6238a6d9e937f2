using System.Globalization;
using System.Runtime.CompilerServices;

namespace Groundstation.Published;

/// <summary>A table of outside check values in <c>data/</c>: CSV, or tabs in a .tsv, with a header; # lines name its source.</summary>
internal sealed class PublishedTable
{
    private readonly string[] _columns;

    private PublishedTable(string name, string[] lines)
    {
        char between = name.EndsWith(".tsv", StringComparison.Ordinal) ? '\t' : ',';
        _columns = lines[0].Split(between);
        Rows = [.. lines.Skip(1).Select((line, i) => new PublishedRow(name, i + 1, _columns, line.Split(between)))];
    }

    public IReadOnlyList<PublishedRow> Rows { get; }

    public static PublishedTable Read(string name) => new(name, [.. File
        .ReadLines(Path.Combine(AppContext.BaseDirectory, "data", name))
        .Where(line => line.Length > 0 && line[0] != '#')]);

    /// <summary>Where this check's source file lies, for files of the repository outside the test's output.</summary>
    public static string Repository([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}

/// <summary>One row; prints as its number and text, so that a failing check names it.</summary>
internal sealed class PublishedRow(string table, int number, string[] columns, string[] cells)
{
    public string this[string column] => cells[Array.IndexOf(columns, column)];

    public double Number(string column) => double.Parse(this[column], CultureInfo.InvariantCulture);

    public bool Has(string column) => this[column].Length > 0;

    public override string ToString() => $"{table} row {number}: {string.Join(',', cells)}";
}
