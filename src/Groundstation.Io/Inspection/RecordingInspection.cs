using System.Collections.Immutable;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Io.Recordings;

namespace Groundstation.Io.Inspection;

/// <summary>
/// Tells what a recording holds and whether its receivers are fit for flight. The file streams through fixed buffers
/// and bounded counters: a gigabyte takes the memory of a kilobyte.
/// </summary>
public static class RecordingInspection
{
    private const int LinksNamed = 5;

    /// <summary>
    /// Inspects a recording and writes the report. A recording that is not fit is no failure: its report says so.
    /// </summary>
    /// <param name="path">A recording, or a flight folder that holds one.</param>
    /// <param name="json">As JSON, else as text.</param>
    /// <param name="to">Takes the report.</param>
    /// <exception cref="UserErrorException">There is no such recording, or it cannot be read.</exception>
    public static void Run(string path, bool json, TextWriter to)
    {
        InspectionReport report = Inspect(path);
        if (json)
            InspectionJson.Write(report, to);
        else
            InspectionText.Write(report, to);
    }

    /// <summary>Inspects a recording by the limits that hold without a plan.</summary>
    /// <param name="path">A recording, or a flight folder that holds one.</param>
    /// <exception cref="UserErrorException">There is no such recording, or it cannot be read.</exception>
    public static InspectionReport Inspect(string path)
    {
        using RecordingReader reader = RecordingReader.Open(RecordingPath.Find(path).File);
        List<(SourceId Source, SourceInspection Inspection)> sources = [];
        List<string> lost = [];
        Instant end = default;
        while (reader.Read(out RecordedEvent e))
        {
            end = e.At;
            switch (e.Kind)
            {
                case RecordedKind.Received:
                    Of(e.Source).Push(e.At, e.Bytes.Span, reader.Line);
                    break;
                case RecordedKind.Link when e.State is LinkState.Lost or LinkState.Ended:
                    if (e.State == LinkState.Lost && lost.Count < LinksNamed)
                        lost.Add($"{e.Source} at {Clock(e.At)}: {e.Why} (line {reader.Line})");
                    Of(e.Source).Flush(e.At);
                    break;
                default:
                    break;
            }
        }

        // A source whose link is all that was recorded has nothing to tell.
        ImmutableArray<SourceReport> reports = [.. sources.Select(s => s.Inspection.Report(end, reader.IsTimed))
            .Where(r => r.Accepted > 0 || r.Rejected.Length > 0)];
        return new InspectionReport
        {
            Recording = path,
            Bytes = reader.Length,
            Lines = reader.Line,
            CommentLines = reader.Comments,
            DamagedLines = reader.Damaged,
            TornEnd = reader.TornEnd,
            TimesFrom = reader.TimeBasis,
            LinksLost = [.. lost],
            Sources = reports,
        };

        SourceInspection Of(SourceId source)
        {
            foreach ((SourceId known, SourceInspection inspection) in sources)
                if (known == source)
                    return inspection;
            SourceInspection added = new(source, FlightPlan.Default);
            sources.Add((source, added));
            return added;
        }
    }

    private static string Clock(Instant at) => at.ToString()[11..19];
}
