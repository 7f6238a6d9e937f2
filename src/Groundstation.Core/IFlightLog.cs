using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Quantities;

namespace Groundstation.Core;

/// <summary>Takes the rows of the flight folder in the order in which they come about. Called synchronously.</summary>
public interface IFlightLog
{
    /// <summary>One epoch, believed or not.</summary>
    void Fix(Fix fix);

    /// <summary>One layer measured: written when the payload has left it, or when the flight ends in it.</summary>
    void Wind(Instant utc, in WindLayer layer);

    /// <summary>One landing estimate.</summary>
    void Landing(LandingEstimate estimate);

    /// <summary>One change of one alarm; <paramref name="change"/> is the word: <c>raised</c>, <c>acknowledged</c>, …</summary>
    void Alarm(Instant utc, string change, AlarmState alarm);

    /// <summary>One callout, or its read-back.</summary>
    void Callout(Callout callout);

    /// <summary>The search sheet: its whole text, in the place of an earlier one.</summary>
    void SearchSheet(string text)
    {
    }

    /// <summary>The operator wants a callout read aloud.</summary>
    void Speak(Callout callout)
    {
    }
}
