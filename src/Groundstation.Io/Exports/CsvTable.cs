using System.Text;
using Groundstation.Io.Folders;
using nietras.SeparatedValues;

namespace Groundstation.Io.Exports;

/// <summary>A whole CSV file: RFC 4180, CR LF, header first, UTF-8. Cells that could be formulas are defused.</summary>
internal static class CsvTable
{
    /// <summary>Writes it. The stream stays open.</summary>
    public static void Write<T>(Stream to, IReadOnlyList<string> columns, IEnumerable<T> rows, CsvLog.Fill<T> fill)
    {
        using StreamWriter text = new(to, new UTF8Encoding(false), leaveOpen: true) { NewLine = "\r\n" };
        using SepWriter csv = Sep.New(',').Writer(o => o with { Escape = true }).To(text, leaveOpen: true);
        foreach (string column in columns)
            csv.Header.Add(column);
        csv.Header.Write();
        foreach (T item in rows)
        {
            using SepWriter.Row row = csv.NewRow();
            fill(row, item);
        }
    }
}
