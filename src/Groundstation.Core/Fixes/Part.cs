namespace Groundstation.Core.Fixes;

/// <summary>Sentence types that make up an epoch, in the order of preference for the position.</summary>
internal enum Part
{
    Gga,
    Gns,
    Rmc,
    Gll,
    Gsa,
    Vtg,
    Zda,
    Gst,
}
