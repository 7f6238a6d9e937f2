using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Groundstation.Core.Flight;

/// <summary>The loops in which the wind column spends its time, over vectors of four: the same sums in the same order on every processor.</summary>
internal static class Rows
{
    /// <summary>Σ a·b.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        ReadOnlySpan<Vector256<double>> va = MemoryMarshal.Cast<double, Vector256<double>>(a);
        ReadOnlySpan<Vector256<double>> vb = MemoryMarshal.Cast<double, Vector256<double>>(b);
        Vector256<double> sum = Vector256<double>.Zero;
        for (int i = 0; i < va.Length; i++) sum += va[i] * vb[i];
        double total = Vector256.Sum(sum);
        for (int i = va.Length * Vector256<double>.Count; i < a.Length; i++) total += a[i] * b[i];
        return total;
    }

    /// <summary>target += scale·row.</summary>
    public static void Add(Span<double> target, double scale, ReadOnlySpan<double> row)
    {
        Span<Vector256<double>> vt = MemoryMarshal.Cast<double, Vector256<double>>(target);
        ReadOnlySpan<Vector256<double>> vr = MemoryMarshal.Cast<double, Vector256<double>>(row);
        for (int i = 0; i < vt.Length; i++) vt[i] += scale * vr[i];
        for (int i = vt.Length * Vector256<double>.Count; i < target.Length; i++) target[i] += scale * row[i];
    }

    /// <summary>target += scaleA·a·c + scaleB·b.</summary>
    public static void Add(Span<double> target, double scaleA, ReadOnlySpan<double> a, ReadOnlySpan<double> c,
        double scaleB, ReadOnlySpan<double> b)
    {
        Span<Vector256<double>> vt = MemoryMarshal.Cast<double, Vector256<double>>(target);
        ReadOnlySpan<Vector256<double>> va = MemoryMarshal.Cast<double, Vector256<double>>(a);
        ReadOnlySpan<Vector256<double>> vb = MemoryMarshal.Cast<double, Vector256<double>>(b);
        ReadOnlySpan<Vector256<double>> vc = MemoryMarshal.Cast<double, Vector256<double>>(c);
        for (int i = 0; i < vt.Length; i++) vt[i] += scaleA * va[i] * vc[i] + scaleB * vb[i];
        for (int i = vt.Length * Vector256<double>.Count; i < target.Length; i++)
            target[i] += scaleA * a[i] * c[i] + scaleB * b[i];
    }
}
