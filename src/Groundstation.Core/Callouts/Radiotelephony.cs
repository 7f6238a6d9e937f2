using System.Globalization;

namespace Groundstation.Core.Callouts;

/// <summary>
/// Letters and numbers as they are said on the radio, after ICAO Annex 10, Volume II, 5.2.1: the spelling alphabet, and
/// numbers digit by digit except whole hundreds and thousands. Lower case, for a reader or a speech program.
/// </summary>
public static class Radiotelephony
{
    private static readonly (string Word, string Said)[] Letters =
    [
        ("Alfa", "AL FAH"), ("Bravo", "BRAH VOH"), ("Charlie", "CHAR LEE"), ("Delta", "DELL TAH"), ("Echo", "ECK OH"),
        ("Foxtrot", "FOKS TROT"), ("Golf", "GOLF"), ("Hotel", "HO TELL"), ("India", "IN DEE AH"),
        ("Juliett", "JEW LEE ETT"), ("Kilo", "KEY LOH"), ("Lima", "LEE MAH"), ("Mike", "MIKE"),
        ("November", "NO VEM BER"), ("Oscar", "OSS CAH"), ("Papa", "PAH PAH"), ("Quebec", "KEH BECK"),
        ("Romeo", "ROW ME OH"), ("Sierra", "SEE AIR RAH"), ("Tango", "TANG GO"), ("Uniform", "YOU NEE FORM"),
        ("Victor", "VIK TAH"), ("Whiskey", "WISS KEY"), ("X-ray", "ECKS RAY"), ("Yankee", "YANG KEY"),
        ("Zulu", "ZOO LOO"),
    ];

    private static readonly (string Word, string Said)[] Digits =
    [
        ("Zero", "ZE-RO"), ("One", "WUN"), ("Two", "TOO"), ("Three", "TREE"), ("Four", "FOW-ER"), ("Five", "FIFE"),
        ("Six", "SIX"), ("Seven", "SEV-EN"), ("Eight", "AIT"), ("Nine", "NIN-ER"),
    ];

    /// <summary>The word for a letter, a digit or the decimal point, and how it is pronounced; null for other signs.
    /// </summary>
    public static (string Word, string Said)? Word(char sign) => sign switch
    {
        >= 'A' and <= 'Z' => Letters[sign - 'A'],
        >= 'a' and <= 'z' => Letters[sign - 'a'],
        >= '0' and <= '9' => Digits[sign - '0'],
        '.' => ("Decimal", "DAY-SEE-MAL"),
        _ => null,
    };

    /// <summary>
    /// Letters, digits and decimal points one by one, <c>32U 9.5</c> as <c>three two uniform niner decimal five</c>. A
    /// nine is said niner, so that it is not taken for a five. Other signs part words and are not said.
    /// </summary>
    public static string Spell(string text) => string.Join(' ', text.Select(sign => sign == '9' ? "niner"
        : Word(sign) is var (word, _) ? word.ToLowerInvariant() : null).OfType<string>());

    /// <summary>
    /// A whole number: <c>seven thousand six hundred</c>, <c>one one thousand</c>, else digit by digit. A minus is
    /// said.
    /// </summary>
    public static string Number(long value)
    {
        if (value < 0) return "minus " + Number(-value);
        if (value == 0 || value % 100 != 0) return Spell(value.ToString(CultureInfo.InvariantCulture));
        List<string> words = [];
        if (value >= 1000) words.Add(Count(value / 1000) + " thousand");
        if (value % 1000 > 0) words.Add(Count(value % 1000 / 100) + " hundred");
        return string.Join(' ', words);
    }

    /// <summary>How many hundreds or thousands: a single nine stays nine before such a word.</summary>
    private static string Count(long value) =>
        value == 9 ? "nine" : Spell(value.ToString(CultureInfo.InvariantCulture));
}
