using System.Globalization;
using Groundstation.Core.Callouts;
using Xunit;

namespace Groundstation.Published.Callouts;

/// <summary>
/// Letters, digits and numbers after ICAO Annex 10, Volume II; the tables say which rows are from memory.
/// </summary>
public class RadiotelephonyTables
{
    [Fact]
    public void Letters_and_digits_have_their_word_and_pronunciation() => Assert.All(Rows("radiotelephony.tsv"), row =>
    {
        (string sign, string word, string said) = (row[0], row[1], row[2]);
        if (sign is "100" or "1000")
        {
            // Not a sign of its own: the word that follows the digits.
            Assert.Equal("one " + word.ToLowerInvariant(), Radiotelephony.Number(int.Parse(sign, CultureInfo.InvariantCulture)));
            return;
        }
        Assert.Equal((word, said), Radiotelephony.Word(sign[0]));
    });

    [Fact]
    public void Numbers_are_said_as_in_the_examples() => Assert.All(Rows("radiotelephony_numbers.tsv"), row =>
    {
        string number = row[0].Replace("FL", "", StringComparison.Ordinal);
        string said = number.Contains('.', StringComparison.Ordinal) ? Radiotelephony.Spell(number)
            : Radiotelephony.Number(long.Parse(number, CultureInfo.InvariantCulture));
        Assert.Equal(row[1].ToLowerInvariant(), row[0] == number ? said : "flight level " + said);
    });

    private static string[][] Rows(string name)
    {
        string[] lines = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "data", name))
            .Where(line => line.Length > 0 && line[0] != '#')];
        return [.. lines.Skip(1).Select(line => line.Split('\t'))];
    }
}
