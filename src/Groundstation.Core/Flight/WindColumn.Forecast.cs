using System.Collections.Immutable;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Flight;

/// <summary>What wind files tell the column before anything is measured.</summary>
public sealed partial class WindColumn
{
    // A forecast moves by less than its own error in this time.
    private const double ForecastStepS = 600;

    private readonly FlightPlan _plan;
    private Instant? _foretold;

    /// <summary>
    /// What the plan's wind files tell by height, for the time it was last wanted for; empty when there are none.
    /// </summary>
    public ImmutableArray<ForecastLevel> Foretold { get; private set; } = [];

    /// <summary>
    /// Takes the plan's wind files as they hold at a moment, until the first drift is measured: from then on what is
    /// known of the wind ages as measured.
    /// </summary>
    /// <returns>True when what the column knows has changed.</returns>
    public bool Expect(Instant utc)
    {
        if (_aged is not null || _foretold is { } last
            && Math.Abs(utc.SecondsSince(last)) < ForecastStepS) return false;
        if (ForecastPrior.Of(_plan, utc) is not { } prior) return false;
        _foretold = utc;
        foreach (WindHypothesis h in _filters)
        {
            prior.Covariance.CopyTo(h.Covariance, 0);
            prior.East.CopyTo(h.East, 0);
            prior.North.CopyTo(h.North, 0);
        }

        for (int i = 0; i < _basis.Length; i++)
            _basis[i] = i >= prior.Lowest && i <= prior.Highest ? WindBasis.Forecast : WindBasis.Neighbours;
        Foretold = [.. Enumerable.Range(prior.Lowest, prior.Highest - prior.Lowest + 1)
            .Select(i => new ForecastLevel(new(WindNodes.HeightsM[i]), new(prior.East[i], prior.North[i])))];
        (_meanFresh, _averageFresh) = (false, false);
        return true;
    }
}
