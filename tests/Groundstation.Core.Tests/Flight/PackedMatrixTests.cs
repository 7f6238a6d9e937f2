using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Xunit;

namespace Groundstation.Core.Tests.Flight;

public class PackedMatrixTests
{
    [Fact]
    public void Every_bit_comes_back_whatever_the_numbers_are()
    {
        const int Size = 40;
        SeededRandom random = new(1);
        double[] odd = [0, -0.0, double.Epsilon, -double.Epsilon, double.MaxValue, double.MinValue, double.NaN, 1, -1];
        var matrix = new double[Size * Size];
        for (int row = 0; row < Size; row++)
        {
            for (int column = row; column < Size; column++)
            {
                double upper = random.NextBetween(-1, 1), lower = upper;
                if ((row + column) % 3 == 0) lower = Math.BitIncrement(upper);
                if ((row + column) % 7 == 0) (upper, lower) = (odd[row % odd.Length], odd[column % odd.Length]);
                (matrix[row * Size + column], matrix[column * Size + row]) = (upper, lower);
            }
        }

        double[] back = new PackedMatrix(matrix, Size).Unpacked();

        Assert.Equal(matrix.Select(BitConverter.DoubleToInt64Bits), back.Select(BitConverter.DoubleToInt64Bits));
    }
}
