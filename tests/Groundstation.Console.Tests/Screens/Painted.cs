using Groundstation.Console.Cells;
using Groundstation.Console.Feeds;
using Groundstation.Console.Screens;
using Groundstation.Core;
using Xunit;

namespace Groundstation.Console.Tests.Screens;

/// <summary>A whole picture as text.</summary>
internal static class Painted
{
    private static readonly (int Width, int Height)[] _sizes = [(80, 24), (120, 40), (160, 48), (200, 60)];

    /// <summary>The whole picture.</summary>
    public static string Paint(Snapshot? s, View view, int width, int height, FeedStatus? status = null,
        bool ascii = false)
    {
        Canvas canvas = new(ascii);
        canvas.Reset(width, height);
        Painter.Paint(canvas, s, status ?? new FeedStatus { Recording = "flights/demo", Lines = 4321 }, view);
        return canvas.ToString();
    }

    /// <summary>A screen shows these words at every size.</summary>
    public static void Shows(Snapshot s, ScreenId screen, params string[] words)
    {
        foreach ((int width, int height) in _sizes)
        {
            string text = Paint(s, new View { Screen = screen }, width, height);
            foreach (string word in words)
                Assert.True(text.Contains(word, StringComparison.Ordinal),
                    $"no \"{word}\" at {width}×{height}:\n{text}");
        }
    }
}
