using Groundstation.Core;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Console.Commands;

/// <summary>Keeps nothing: for a station that only lends its snapshot to a map.</summary>
internal sealed class NoLog : IFlightLog
{
    public void Fix(Fix fix)
    {
    }

    public void Wind(Instant utc, in WindLayer layer)
    {
    }

    public void Landing(LandingEstimate estimate)
    {
    }

    public void Alarm(Instant utc, string change, AlarmState alarm)
    {
    }

    public void Callout(Callout callout)
    {
    }
}
