using System.Globalization;
using Groundstation.Core.Earth;
using Groundstation.Core.Flight;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Io.Folders;
using Groundstation.Io.Recordings;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Scenarios;

/// <summary>What a simulated flight came to, for a word to the user.</summary>
/// <param name="Recording">The recording's file.</param>
/// <param name="Truth">The truth's file.</param>
/// <param name="Burst">Where the descent began; null when it never flew.</param>
/// <param name="Landing">Where it came down; null when it was still aloft after a week.</param>
/// <param name="Lines">Lines received.</param>
public sealed record SimulationResult(string Recording, string Truth, TrueState? Burst, TrueState? Landing, long Lines);

/// <summary>
/// Writes a scenario's flight: <c>flight.nmea</c>, a recording as the station itself would have made it, silence
/// included, and <c>truth.csv</c>, where the payload truly was at each whole second.
/// </summary>
public static class SimulationWriter
{
    /// <summary>Writes both files into a folder, made if need be; older ones of the same name give way.</summary>
    /// <exception cref="UserErrorException">The folder or a file cannot be written.</exception>
    public static SimulationResult Write(Scenario scenario, string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
        }
        catch (Exception e) when (FileTrouble.Is(e))
        {
            throw new UserErrorException($"{folder}: cannot be made ({FileTrouble.Words(e)})", e);
        }

        string recording = Path.Combine(folder, "flight.nmea"), truth = Path.Combine(folder, "truth.csv");
        using AppendFile file = new(recording, fresh: true, writeThrough: false);
        using CsvLog csv = new(truth, false, "t_s", "utc", "latitude_deg", "longitude_deg", "height_msl_m",
            "vertical_rate_mps", "wind_east_mps", "wind_north_mps", "phase");
        FlightSimulator simulator = FlightSimulator.Start(scenario);
        SimulatedRecorder recorder = new(scenario, file);
        foreach (SimulatedEpoch epoch in simulator.Epochs())
        {
            recorder.Take(epoch);
            if (IsWholeSecond(epoch.Truth.TimeS))
                csv.Row((epoch.Truth, epoch.Receiver.Utc), Fill);
        }

        recorder.End();
        file.Flush();
        csv.File.Flush();
        if (file.Trouble.Length > 0 || csv.File.Trouble.Length > 0)
            throw new UserErrorException($"{folder}: cannot be written ({file.Trouble}{csv.File.Trouble})");
        return new(recording, truth, simulator.Flight.Burst, simulator.Flight.Landing, recorder.Lines);
    }

    private static bool IsWholeSecond(double t) => Math.Abs(t - Math.Round(t)) < 1e-6;

    // Few enough decimals that the last bit of a platform's sine does not show.
    private static void Fill(nietras.SeparatedValues.SepWriter.Row row, (TrueState State, Instant Utc) now)
    {
        (TrueState s, Instant utc) = now;
        row["t_s"].Set(Text(s.TimeS, "F0"));
        row["utc"].Set(utc.ToString());
        row["latitude_deg"].Set(Text(s.Position.LatitudeDeg, "F6"));
        row["longitude_deg"].Set(Text(s.Position.LongitudeDeg, "F6"));
        row["height_msl_m"].Set(Text(s.Height.Metres, "F1"));
        row["vertical_rate_mps"].Set(Text(s.VerticalRateMps, "F2"));
        row["wind_east_mps"].Set(Text(s.Wind.EastMps, "F2"));
        row["wind_north_mps"].Set(Text(s.Wind.NorthMps, "F2"));
        row["phase"].Set(Cells.Word(s.Phase));
    }

    // A calm is 0.00, whichever side it came from.
    private static string Text(double value, string form)
    {
        string text = value.ToString(form, CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.AsSpan(1).IndexOfAnyExcept('0', '.') < 0 ? text[1..] : text;
    }
}
