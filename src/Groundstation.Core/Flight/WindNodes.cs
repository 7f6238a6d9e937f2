using System.Collections.Immutable;

namespace Groundstation.Core.Flight;

/// <summary>
/// The heights at which the wind column is held, linear in between. Finer where the payload spends its time and where
/// the boundary layer bends the profile: 100 m up to 2 km, 300 m up to 14 km, 400 m up to 30 km, then 1 km. With 400 to
/// 700 m aloft, what a straight line leaves out of a real profile (waves of 2 m/s a kilometre or two long) passed for
/// gusts, and hid how much the wind had changed since the way up. All of them are <see cref="Levels"/>, so that a path
/// sees the column exactly.
/// </summary>
public static class WindNodes
{
    /// <summary>Heights, metres above mean sea level, ascending.</summary>
    public static readonly ImmutableArray<double> HeightsM = Make();

    /// <summary>For each of <see cref="Levels"/>: the node at or below it.</summary>
    private static readonly ImmutableArray<short> NodeAtLevel = MakeIndex();

    /// <summary>How many.</summary>
    public static int Count => HeightsM.Length;

    /// <summary>The nodes around a height: the lower one's index and the upper one's weight, 0–1; clamped outside.</summary>
    public static (int Lower, double UpperWeight) Locate(double heightM)
    {
        int lower = NodeAtLevel[Levels.Below(heightM)];
        double z = HeightsM[lower];
        return (lower, Math.Clamp((heightM - z) / (HeightsM[lower + 1] - z), 0, 1));
    }

    /// <summary>Lower edge of a node's layer: half way to the node below.</summary>
    public static double LayerBottomM(int node) =>
        node == 0 ? HeightsM[0] : (HeightsM[node - 1] + HeightsM[node]) / 2;

    /// <summary>Upper edge of a node's layer: half way to the node above.</summary>
    public static double LayerTopM(int node) =>
        node == Count - 1 ? HeightsM[node] : (HeightsM[node] + HeightsM[node + 1]) / 2;

    private static ImmutableArray<double> Make()
    {
        ImmutableArray<double>.Builder heights = ImmutableArray.CreateBuilder<double>();
        double z = Levels.BottomM;
        while (z <= Levels.TopM)
        {
            heights.Add(z);
            z += z switch { < 2000 => 100, < 14_000 => 300, < 30_000 => 400, _ => 1000 };
        }
        return heights.ToImmutable();
    }

    private static ImmutableArray<short> MakeIndex()
    {
        var index = new short[Levels.Count];
        for (int level = 0, node = 0; level < Levels.Count; level++)
        {
            while (node < HeightsM.Length - 2 && HeightsM[node + 1] <= Levels.HeightM(level)) node++;
            index[level] = (short)node;
        }
        return [.. index];
    }
}
