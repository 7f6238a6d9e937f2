namespace Groundstation.Core.Receive;

/// <summary>
/// The name of one source of bytes, as it stands in TAG blocks (<c>s:</c>) and on screens: <c>radio1</c>, <c>radio2</c>, …
/// for tracker receivers in the order given, <c>chase</c> for the chase car's receiver. 1 to 15 letters, digits, - or _.
/// </summary>
/// <param name="Name">The name.</param>
public readonly record struct SourceId(string Name)
{
    /// <summary>The chase car's own receiver.</summary>
    public static readonly SourceId Chase = new("chase");

    /// <inheritdoc/>
    public override string ToString() => Name;
}

/// <summary>State of the link to one source.</summary>
public enum LinkState
{
    /// <summary>Being opened, not yet up.</summary>
    Opening,

    /// <summary>Open.</summary>
    Up,

    /// <summary>Was up, is being reopened; or its end was reached.</summary>
    Lost,

    /// <summary>Ended for good: a file or standard input came to its end.</summary>
    Ended,
}

/// <summary>The newest word on one source's link.</summary>
/// <param name="Source">Which source.</param>
/// <param name="State">Its state.</param>
/// <param name="Why">Cause in plain words; empty when up.</param>
/// <param name="Since">Arrival time of that change.</param>
public sealed record LinkStatus(SourceId Source, LinkState State, string Why, Quantities.Instant Since);
