namespace Groundstation.Core.Quantities;

/// <summary>Units on screens and in callouts. Logs are always SI.</summary>
public enum DisplayUnits
{
    /// <summary>Metres, kilometres, m/s.</summary>
    Metric,

    /// <summary>Feet, statute miles, ft/min for vertical and mph for horizontal rates.</summary>
    Customary,
}
