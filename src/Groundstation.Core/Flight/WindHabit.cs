namespace Groundstation.Core.Flight;

/// <summary>How the change of a layer's wind grows with the time since it was measured.</summary>
internal enum ChangeLaw
{
    /// <summary>A random walk: its variance grows with the time.</summary>
    Walk,

    /// <summary>A steady trend, as when a front or a jet moves past: the change itself grows with the time.</summary>
    Trend,
}

/// <summary>What one supposition says of the day's wind.</summary>
/// <param name="ChangeMps">Standard deviation of a component's change over three hours, m/s.</param>
/// <param name="Length">Which of <see cref="WindKernels.Change"/> tells how changes go together over height.</param>
/// <param name="Law">How change grows with time.</param>
/// <param name="GustMps">Speed of gusts aloft, m/s a component; they pass in seconds and are no part of the column.</param>
internal readonly record struct WindHabit(double ChangeMps, int Length, ChangeLaw Law, double GustMps)
{
    /// <summary>Variance of a component's change by a node's age from <paramref name="age"/> on, m²/s².</summary>
    public double Change(double age, double seconds) => ChangeMps * ChangeMps * Share(Law, age, seconds);

    /// <summary>
    /// Covariance of the changes of two winds measured at different times ago, where changes go together fully, m²/s²: a
    /// walk has in common what came after the later measurement, a trend the trend itself.
    /// </summary>
    public double ChangeBetween(double age, double otherAge) => Law == ChangeLaw.Walk
        ? Change(0, Math.Min(age, otherAge)) : Math.Sqrt(Change(0, age) * Change(0, otherAge));

    /// <summary>The same as <see cref="Change"/> for a change of 1 m/s over three hours.</summary>
    public static double Share(ChangeLaw law, double age, double seconds)
    {
        const double ThreeHours = 3 * 3600;
        return law == ChangeLaw.Walk ? seconds / ThreeHours
            : seconds * (2 * age + seconds) / (ThreeHours * ThreeHours);
    }
}
