using System.Globalization;
using Groundstation.Core.Alarms;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;

namespace Groundstation.Core;

/// <summary>
/// The operator's acts, and what the session's own housekeeping tells. An act that cannot be carried out is kept as an
/// event with the reason.
/// </summary>
public sealed partial class Station
{
    // What cannot be written at the moment; empty when all is well.
    private string _storageTrouble = "";

    // Room on the flight folder's disk, as told last.
    private double? _diskFreeMb;

    // By how much the host clock was set since the start, s; arrival stamps went on as they were.
    private double _hostSetS;

    private void Carry(OperatorAct act)
    {
        if (act.Verb == "disk")
        {
            _diskFreeMb = Number(act.Argument, out double mb) && mb >= 0 ? mb : null;
            return;
        }
        if (act.Verb == "clock-set")
        {
            _hostSetS += Number(act.Argument, out double seconds) ? seconds : 0;
            return;
        }
        if (act.Verb is "storage" or "clock" or "recording" or "share" or "speech")
        {
            if (act.Verb == "storage") _storageTrouble = act.Argument;
            Happened($"Station: {act.Verb}: {(act.Argument.Length > 0 ? act.Argument : "all is written again")}");
            return;
        }
        bool done = act.Verb switch
        {
            "acknowledge" => Acknowledge(act.Argument),
            "shelve" => Remembered(
                _alarms.Shelve(act.Argument, _plan.Alarms.ShelveS, _clock.Arrival, _clock.Utc)),
            "unshelve" => Remembered(_alarms.Unshelve(act.Argument, _clock.Utc)),
            "read-back" => ReadBack(act.Argument),
            "speak" => Speak(act.Argument),
            "full-callout" => FullCallout(),
            "search-sheet" => WriteSheet(),
            "chase-position" => ChasePosition(act.Argument),
            "confirm" => Confirm(act.Argument),
            "withdraw" => _confirmed.Remove(act.Argument),
            "go" or "no-go" => Decide(act.Verb == "go"),
            "ground-height" => GroundHeight(act.Argument),
            "mark-launch" => MarkLaunch(),
            "mark-burst" => Mark(_marks with { Burst = _clock.Utc }),
            "units" => ChooseUnits(act.Argument),
            "note" => true,
            _ => false,
        };
        Happened(InWords(act) + (done ? "" : " (could not be carried out)"));
    }

    private bool Acknowledge(string id)
    {
        if (id != "all") return Remembered(_alarms.Acknowledge(id, _clock.Utc));
        bool any = false;
        foreach (AlarmState alarm in _alarms.Standing) any |= Remembered(_alarms.Acknowledge(alarm.Id, _clock.Utc));
        return any;
    }

    /// <summary><c>NUMBER correct</c> or <c>NUMBER wrong</c>.</summary>
    private bool ReadBack(string argument)
    {
        string[] words = argument.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is not [var number, "correct" or "wrong"]
            || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int n)
            || _callouts.ReadBack(n, words[1] == "correct") is not { } callout) return false;
        _log.Callout(callout);
        return true;
    }

    /// <summary>A callout's number: it is to be read aloud (again).</summary>
    private bool Speak(string argument)
    {
        if (!int.TryParse(argument, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            || _callouts.Numbered(number) is not { } callout) return false;
        _log.Speak(callout);
        return true;
    }

    private bool FullCallout()
    {
        if (Scene() is { } scene) _log.Callout(_callouts.Full(scene));
        else if (UnheardLaunch is { } launch) _log.Callout(_callouts.Nothing(_clock.Utc, "full", launch, Contact));
        else return false;
        return true;
    }

    /// <summary>A place in any form that <see cref="CoordinateText"/> reads.</summary>
    private bool ChasePosition(string argument)
    {
        if (CoordinateText.Read(argument).Place is not { } car) return false;
        _chase = new Waypoint(_clock.Utc, car, default);
        _chaseWay.Take(_clock.Utc, car, typed: true);
        return true;
    }

    /// <summary>Metres above mean sea level.</summary>
    private bool GroundHeight(string argument)
    {
        if (!Number(argument, out double heightM) || heightM is < -500 or > 9000) return false;
        _estimator.TellGround(heightM);
        _groundToldM = heightM;
        if (_landing is not null) Estimate(_clock.Utc);
        return true;
    }

    private static bool Number(string text, out double value) => double.TryParse(text,
        NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);

    private bool Remembered(AlarmChange? change)
    {
        if (change is { } c) Remember(c);
        return change is not null;
    }
}
