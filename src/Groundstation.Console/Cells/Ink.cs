namespace Groundstation.Console.Cells;

/// <summary>
/// What a cell means, not how it looks: <c>Palette</c> turns it into colours. In a plot the later one wins a shared
/// cell, so the order is that of importance.
/// </summary>
internal enum Ink : byte
{
    /// <summary>The terminal's own text.</summary>
    Plain,

    /// <summary>Rules, axes, labels of figures.</summary>
    Quiet,

    /// <summary>A figure to be seen first.</summary>
    Strong,

    /// <summary>Title of a panel.</summary>
    Heading,

    /// <summary>The chosen row, the current screen.</summary>
    Chosen,

    /// <summary>As it should be.</summary>
    Good,

    /// <summary>Range rings and grid lines.</summary>
    Ring,

    /// <summary>The user's own map.</summary>
    Map,

    /// <summary>The 95 % area's outline.</summary>
    Area95,

    /// <summary>The 50 % area's outline.</summary>
    Area50,

    /// <summary>The path expected.</summary>
    Path,

    /// <summary>The chase car.</summary>
    Chase,

    /// <summary>A code to be scanned: dark on light, whatever the terminal's colours.</summary>
    Code,

    /// <summary>The track flown.</summary>
    Track,

    /// <summary>Advisory.</summary>
    Advisory,

    /// <summary>Caution.</summary>
    Caution,

    /// <summary>Warning.</summary>
    Warning,
}
