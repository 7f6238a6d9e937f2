namespace Groundstation.Io.PlanFile;

/// <summary>How far two words are apart, to guess what a mistyped key was meant to be.</summary>
internal static class Nearness
{
    /// <summary>Edit distance after Levenshtein (1966): insertions, deletions and replacements.</summary>
    public static int Distance(string a, string b)
    {
        // A key of absurd length is near to nothing; the table below must stay small.
        if (a.Length > 100)
            return a.Length;
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 0; i < a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i + 1;
            for (int j = 0; j < b.Length; j++)
            {
                int replaced = diagonal + (a[i] == b[j] ? 0 : 1);
                diagonal = row[j + 1];
                row[j + 1] = Math.Min(replaced, Math.Min(row[j], row[j + 1]) + 1);
            }
        }

        return row[^1];
    }
}
