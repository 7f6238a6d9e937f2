using System.Collections.Immutable;
using Groundstation.Core.Earth;

namespace Groundstation.Core.Simulation;

/// <summary>What a receiver puts out above its altitude limit.</summary>
public enum BeyondLimit
{
    /// <summary>Empty fields, quality 0.</summary>
    Blank,

    /// <summary>Its last position, quality 0, status V.</summary>
    Held,
}

/// <summary>The tracker's satellite receiver and what it says.</summary>
public sealed record SimulatedReceiver
{
    /// <summary>Epochs a second; 0.1 to 20.</summary>
    public double RateHz { get; init; } = 1;

    /// <summary>Talker: <c>GP</c> writes the forms of NMEA 2.3, <c>GN</c> those of 4.11.</summary>
    public string Talker { get; init; } = "GN";

    /// <summary>Sentence types put out each epoch, in this order.</summary>
    public ImmutableArray<string> Sentences { get; init; } = ["GGA", "RMC"];

    /// <summary>Sentence types put out more rarely, after the others of their epoch.</summary>
    public ImmutableArray<string> SlowSentences { get; init; } = ["GSA", "GSV", "VTG"];

    /// <summary>Seconds between two rounds of these.</summary>
    public double SlowEveryS { get; init; } = 5;

    /// <summary>Standard deviation of the slow error east and north, m.</summary>
    public double HorizontalSigmaM { get; init; }

    /// <summary>The same up, m.</summary>
    public double VerticalSigmaM { get; init; }

    /// <summary>Correlation time of the slow error, s.</summary>
    public double CorrelationS { get; init; } = 60;

    /// <summary>Standard deviation of the error that is new each epoch, in each direction, m.</summary>
    public double JitterM { get; init; }

    /// <summary>Standard deviation of each component of the velocity, m/s.</summary>
    public double SpeedSigmaMps { get; init; }

    /// <summary>Most satellites used at once.</summary>
    public int Channels { get; init; } = 12;

    /// <summary>Signal of a satellite overhead, dB-Hz; 12 less at the horizon.</summary>
    public double ZenithSnrDb { get; init; } = 46;

    /// <summary>What tumbling takes from each signal once the payload is let go, dB; it fades in 15 s.</summary>
    public double TumbleLossDb { get; init; }

    /// <summary>Height above which it gives no fix; null: none.</summary>
    public HeightMsl? AltitudeLimit { get; init; }

    /// <summary>Time it needs below the limit before it has a fix again, s.</summary>
    public double RegainS { get; init; } = 25;

    /// <summary>What it puts out without a fix.</summary>
    public BeyondLimit Beyond { get; init; }

    /// <summary>Days by which its date is ahead; −7168: its week number has run over once.</summary>
    public int DateAheadDays { get; init; }

    /// <summary>Geoid separation that it reports, m.</summary>
    public double GeoidSeparationM { get; init; }

    /// <summary>Times in which it says its last epoch again and again.</summary>
    public ImmutableArray<Stall> Stalls { get; init; } = [];

    /// <summary>Times in which it is off.</summary>
    public ImmutableArray<Outlier> Outliers { get; init; } = [];
}

/// <summary>A time in which the receiver's clock stands: every epoch is said again as the last one before.</summary>
/// <param name="FromS">Begins at this time after launch, s.</param>
/// <param name="ForS">How long, s.</param>
public sealed record Stall(double FromS, double ForS);

/// <summary>A time in which the receiver gives a place that is off.</summary>
/// <param name="FromS">Begins at this time after launch, s.</param>
/// <param name="ForS">How long, s.</param>
/// <param name="EastM">Off to the east, m.</param>
/// <param name="NorthM">Off to the north, m.</param>
/// <param name="UpM">Too high, m.</param>
public sealed record Outlier(double FromS, double ForS, double EastM, double NorthM, double UpM);

/// <summary>The payload's sensors, told by XDR.</summary>
public sealed record SimulatedSensors
{
    /// <summary>Seconds between two XDR; 0: none.</summary>
    public double EveryS { get; init; } = 10;

    /// <summary>Standard deviation of the pressure from reading to reading, Pa.</summary>
    public double PressureSigmaPa { get; init; } = 20;

    /// <summary>Constant error of the pressure, Pa.</summary>
    public double PressureBiasPa { get; init; }

    /// <summary>Standard deviation of both temperatures, K.</summary>
    public double TemperatureSigmaK { get; init; } = 0.2;

    /// <summary>Lag of the outside thermometer, s.</summary>
    public double OutsideLagS { get; init; } = 10;

    /// <summary>How much warmer the box is kept by its electronics, K.</summary>
    public double HeatingK { get; init; } = 25;

    /// <summary>Time in which the box follows the outside, s.</summary>
    public double BoxLagS { get; init; } = 2400;

    /// <summary>Battery when full and at 20 °C, V.</summary>
    public double BatteryV { get; init; } = 4.15;

    /// <summary>What an hour takes from it, V.</summary>
    public double BatteryDropVPerHour { get; init; } = 0.12;

    /// <summary>What each kelvin below 20 °C in the box takes from it, V.</summary>
    public double BatteryDropVPerK { get; init; } = 0.004;
}

/// <summary>A time in which the tracker is not heard.</summary>
/// <param name="FromS">Begins at this time after launch, s; null: see the heights.</param>
/// <param name="AscentAboveM">Begins when the ascent passes this height above mean sea level, m.</param>
/// <param name="DescentBelowM">Begins when the descent passes this height above mean sea level, m.</param>
/// <param name="ForS">How long, s; null: for good.</param>
public sealed record Silence(double? FromS = null, double? AscentAboveM = null, double? DescentBelowM = null,
    double? ForS = null);

/// <summary>A time in which the laptop has no link to its radio.</summary>
/// <param name="FromS">Begins at this time after launch, s.</param>
/// <param name="ForS">How long, s.</param>
public sealed record LinkGap(double FromS, double ForS);

/// <summary>The radio way from the tracker to the laptop.</summary>
public sealed record SimulatedRadio
{
    /// <summary>Name of the source in the recording.</summary>
    public string Source { get; init; } = "radio1";

    /// <summary>Speed of the serial line, bit/s, 10 bits a byte.</summary>
    public int Baud { get; init; } = 9600;

    /// <summary>Speed at which the laptop reads the line, bit/s; null: the right one.</summary>
    public int? ReadBaud { get; init; }

    /// <summary>From the epoch to the first byte of its first sentence at the laptop, s.</summary>
    public double LatencyS { get; init; } = 0.25;

    /// <summary>Standard deviation of that, s.</summary>
    public double LatencySigmaS { get; init; } = 0.02;

    /// <summary>How much the laptop's clock is ahead of UTC, s.</summary>
    public double ClockAheadS { get; init; }

    /// <summary>Share of sentences damaged on the way, 0 to 1.</summary>
    public double DamagedShare { get; init; }

    /// <summary>
    /// Height above the landing ground below which epochs are lost on the way down, more and more, all of them below
    /// half of it; null: heard to the ground.
    /// </summary>
    public double? FadeBelowM { get; init; }

    /// <summary>Silences of the tracker.</summary>
    public ImmutableArray<Silence> Silences { get; init; } = [];

    /// <summary>Gaps of the link, earliest first, not overlapping.</summary>
    public ImmutableArray<LinkGap> LinkGaps { get; init; } = [];
}
