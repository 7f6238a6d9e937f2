namespace Groundstation.Core.Flight;

/// <summary>
/// A matrix that is symmetric but for rounding, to the last bit, in a good half of its memory: the upper half as it is,
/// and by how many steps of a double each number below the diagonal differs from its twin.
/// </summary>
internal sealed class PackedMatrix
{
    private readonly int _size;
    private readonly double[] _upper;
    private readonly byte[] _steps;

    /// <param name="matrix">Row by row.</param>
    /// <param name="size">Rows.</param>
    public PackedMatrix(ReadOnlySpan<double> matrix, int size)
    {
        (_size, _upper) = (size, new double[size * (size + 1) / 2]);
        List<byte> steps = new(_upper.Length);
        for (int row = 0, next = 0; row < size; row++)
        {
            for (int column = row; column < size; column++)
            {
                double upper = _upper[next++] = matrix[row * size + column];
                if (column > row) Write(steps, Bits(matrix[column * size + row]) - Bits(upper));
            }
        }

        _steps = [.. steps];
    }

    /// <summary>The matrix, row by row.</summary>
    public double[] Unpacked()
    {
        var matrix = new double[_size * _size];
        ReadOnlySpan<byte> steps = _steps;
        for (int row = 0, next = 0; row < _size; row++)
        {
            for (int column = row; column < _size; column++)
            {
                double upper = matrix[row * _size + column] = _upper[next++];
                if (column > row)
                    matrix[column * _size + row] = BitConverter.Int64BitsToDouble(Bits(upper) + Read(ref steps));
            }
        }

        return matrix;
    }

    private static long Bits(double of) => BitConverter.DoubleToInt64Bits(of);

    // Seven bits a byte, the sign lowest: most differ by nothing or by a few steps.
    private static void Write(List<byte> to, long steps)
    {
        ulong left = (ulong)((steps << 1) ^ (steps >> 63));
        for (; left >= 0x80; left >>= 7) to.Add((byte)(left | 0x80));
        to.Add((byte)left);
    }

    private static long Read(ref ReadOnlySpan<byte> from)
    {
        ulong value = 0;
        int shift = 0, i = 0;
        do
        {
            value |= (ulong)(from[i] & 0x7F) << shift;
            shift += 7;
        }
        while (from[i++] >= 0x80);
        from = from[i..];
        return (long)(value >> 1) ^ -(long)(value & 1);
    }
}
