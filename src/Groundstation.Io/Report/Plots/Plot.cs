using System.Text;
using System.Text.RegularExpressions;
using OxyPlot;

namespace Groundstation.Io.Report.Plots;

/// <summary>A drawn plot.</summary>
/// <param name="Name">Name of its file, without the ending; also the start of its ids, which a page must not repeat.
/// </param>
/// <param name="Text">What it shows, in a sentence, for those who cannot see it.</param>
/// <param name="Svg">The drawing, an <c>svg</c> element.</param>
internal sealed partial record Plot(string Name, string Text, string Svg)
{
    /// <summary>Draws a model.</summary>
    public static Plot Draw(string name, string text, PlotModel model, int height)
    {
        string svg = new SvgExporter
        {
            Width = PlotStyle.Width,
            Height = height,
            IsDocument = false,
            TextMeasurer = new Measurer(height),
        }.ExportToString(model);
        svg = svg[svg.IndexOf("<svg", StringComparison.Ordinal)..].ReplaceLineEndings("\n").Trim();
        // Numbered anew in each drawing: on one page the first plot's clip would cut all of them.
        svg = svg.Replace("clipPath id=\"clipPath", $"clipPath id=\"{name}-", StringComparison.Ordinal)
            .Replace("url(#clipPath", $"url(#{name}-", StringComparison.Ordinal);
        string title = Html.Escape($"{model.Title}. {text}");
        svg = Opening().Replace(svg, m => $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 "
            + $"{m.Groups[1].Value} {m.Groups[2].Value}\" width=\"{m.Groups[1].Value}\" height=\"{m.Groups[2].Value}\" "
            + $"role=\"img\" aria-label=\"{title}\">", 1);
        return new Plot(name, text, svg);
    }

    /// <summary>Writes it as a file of its own.</summary>
    public void Write(Stream to) =>
        to.Write(Encoding.UTF8.GetBytes("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n" + Svg + "\n"));

    // The library measures text in points, but the drawing's unit is a pixel, of which a point has 96/72.
    private sealed class Measurer(double height) : PdfRenderContext(PlotStyle.Width, height, OxyColors.White)
    {
        public override OxySize MeasureText(string text, string fontFamily, double fontSize, double fontWeight)
        {
            OxySize points = base.MeasureText(text, fontFamily, fontSize, fontWeight);
            return new OxySize(points.Width * 96 / 72, points.Height * 96 / 72);
        }
    }

    [GeneratedRegex("""<svg width="(\d+)" height="(\d+)"[^>]*>""")]
    private static partial Regex Opening();
}
