using Groundstation.Core;
using Groundstation.Core.Fixes;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Io.Recordings;
using Groundstation.Io.Sessions;
using Groundstation.Io.Storage;
using Xunit;

namespace Groundstation.Io.Tests.Sessions;

/// <summary>What a session takes over from a recording, and what it counts.</summary>
public sealed class WhatIsKeptTests : IDisposable
{
    private static readonly Instant _start = Instant.FromUnixMilliseconds(1_782_000_000_000);
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData(false, 7)]
    [InlineData(true, 9)]
    public void The_recorded_seed_holds_unless_the_plan_file_states_its_own(bool stated, ulong seed)
    {
        byte[] line = new byte[4096];
        File.WriteAllBytes(_folder["received.nmea"],
            line[..RecordingWriter.Format(RecordedEvent.Opened(_start, 7), line)]);
        FlightPlan plan = FlightPlan.Default with { Seed = 9, Stated = stated ? ["flight.seed"] : [] };
        using ReplaySession session = new(RecordingReader.Open(_folder["received.nmea"]), plan, null, null,
            TimeProvider.System);
        Assert.Equal(seed, session.Plan.Seed);
    }

    [Fact]
    public void Between_events_the_stations_time_goes_on_and_never_back()
    {
        StationRunner runner = new(FlightPlan.Default, null, TimeProvider.System, null);
        runner.Apply(RecordedEvent.Opened(_start, 1));
        foreach (double second in (double[])[5, 3])
        {
            runner.TickTo(_start.PlusSeconds(second));
            runner.Publish();
            Assert.Equal(_start.PlusSeconds(5), runner.Newest.Arrival);
            Assert.Equal(_start.PlusSeconds(5), runner.Last);
        }
    }

    [Fact]
    public void One_more_epoch_within_a_second_is_neither_believed_nor_refused()
    {
        FlightTotals totals = new(null);
        foreach (RefusalReasons reason in (RefusalReasons[])[RefusalReasons.None, RefusalReasons.WithinSecond,
            RefusalReasons.NoFix])
        {
            totals.Fix(new Fix
            {
                Source = new("radio1"),
                Heard = _start,
                Utc = _start,
                DateFrom = DateOrigin.Receiver,
                Refused = reason,
            });
        }

        Assert.Equal((1, 1), (totals.Believed, totals.Refused));
    }

    [Fact]
    public void An_act_of_any_length_fits_its_line_and_no_character_is_cut_in_half()
    {
        RecordedEvent act = RecordedEvent.Acted(_start, new OperatorAct(new string('€', 400), new string('€', 400)));
        Assert.InRange(RecordingWriter.Format(act, new byte[4096]), 1, 4096);
        string balloon = new string('a', Escape.MaxText - 1) + "\U0001F388";
        Assert.Equal(balloon[..(Escape.MaxText - 1)], Escape.Recordable(balloon));
    }

    // A device has no length and would never end.
    [Fact]
    public void A_device_is_no_small_file()
    {
        if (!File.Exists("/dev/zero")) Assert.Skip("needs /dev/zero");
        Assert.Null(SmallFile.Read("/dev/zero", 100_000));
    }
}
