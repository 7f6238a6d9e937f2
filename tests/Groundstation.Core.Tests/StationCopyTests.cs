using System.Reflection;
using System.Text;
using Groundstation.Core.Alarms;
using Groundstation.Core.Callouts;
using Groundstation.Core.Fixes;
using Groundstation.Core.Flight;
using Groundstation.Core.Landing;
using Groundstation.Core.Plan;
using Groundstation.Core.Quantities;
using Groundstation.Core.Receive;
using Groundstation.Core.Simulation;
using Groundstation.Core.Tests.Simulation;
using Xunit;

namespace Groundstation.Core.Tests;

/// <summary>A copy stands where its original stands, and neither knows of the other from then on.</summary>
public class StationCopyTests
{
    private static readonly SourceId Radio = new("radio1");

    private sealed class Log : IFlightLog
    {
        public StringBuilder Rows { get; } = new();

        public void Fix(Fix fix) => Rows.AppendLine(fix.ToString());

        public void Wind(Instant utc, in WindLayer layer) => Rows.AppendLine($"{utc} {layer}");

        public void Landing(LandingEstimate estimate) => Rows.AppendLine(
            $"{estimate.Utc} {estimate.Method} {estimate.Position} {estimate.Area50} {estimate.Area95} {estimate.Causes}");

        public void Alarm(Instant utc, string change, AlarmState alarm) => Rows.AppendLine($"{utc} {change} {alarm}");

        public void Callout(Callout callout) => Rows.AppendLine(callout.ToString());
    }

    private static List<ArrivedBytes> Flight()
    {
        List<ArrivedBytes> all = [];
        Scenario rough = Flights.Rough with
        {
            Radio = new() { DamagedShare = 0.01, Silences = [new(FromS: 1000, ForS: 60)] },
        };
        Transmission radio = new(rough);
        foreach (SimulatedEpoch epoch in FlightSimulator.Run(rough)) radio.Carry(epoch, all);
        return all;
    }

    private static void Play(Station station, IEnumerable<ArrivedBytes> bytes)
    {
        foreach (ArrivedBytes b in bytes)
        {
            // Cut within the sentence, so that every copy is taken with bytes pending.
            station.Receive(Radio, b.At, b.Bytes.AsSpan(0, b.Bytes.Length / 2));
            station.Receive(Radio, b.At, b.Bytes.AsSpan(b.Bytes.Length / 2));
        }
    }

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.3)]
    [InlineData(0.55)]
    [InlineData(0.8)]
    [InlineData(0.99)]
    public void A_copy_goes_on_like_its_original_and_leaves_it_alone(double share)
    {
        List<ArrivedBytes> flight = Flight();
        int at = (int)(flight.Count * share);
        Log one = new(), other = new();
        Station station = new(FlightPlan.Default, one);
        Play(station, flight.Take(at));
        station.Receive(Radio, flight[at].At, "$GPGGA,half"u8);
        station.Act(flight[at].At, new OperatorAct("note", "before the copy"));
        one.Rows.Clear();
        // Packed in between: what comes out of it must not know.
        Station kept = station.Copy(other);
        kept.Pack();
        Station copy = kept.Copy(other);
        Assert.Equal(station.Snapshot().Events, copy.Snapshot().Events);

        // The original goes first: whatever it moved that belongs to both would show in the copy's rows.
        Play(station, flight.Skip(at + 1));
        Play(copy, flight.Skip(at + 1));

        Assert.Equal(one.Rows.ToString(), other.Rows.ToString());
        Assert.NotEqual("", one.Rows.ToString());
    }

    [Fact]
    public void Nothing_that_changes_belongs_to_both()
    {
        List<ArrivedBytes> flight = Flight();
        Station station = new(FlightPlan.Default, new Log());
        Play(station, flight.Take(flight.Count * 4 / 5));
        Dictionary<object, string> original = Changing(station), copy = Changing(station.Copy(new Log()));
        Assert.True(original.Count > 50);
        string[] shared = [.. copy.Where(o => original.ContainsKey(o.Key))
            .Select(o => $"{o.Value} is the same object in a station and its copy: copy it in its owner's Copy()")];
        Assert.True(shared.Length == 0, string.Join('\n', shared));
    }

    /// <summary>All objects with a field that may change, and arrays, each with the way to it.</summary>
    private static Dictionary<object, string> Changing(Station station)
    {
        Dictionary<object, string> found = new(ReferenceEqualityComparer.Instance);
        HashSet<object> seen = new(ReferenceEqualityComparer.Instance);
        Stack<(object Value, string Way)> open = new([(station, "Station")]);
        while (open.TryPop(out (object Value, string Way) next))
        {
            Type type = next.Value.GetType();
            if (type.IsPrimitive || type.IsEnum || next.Value is string or Saying or FlightPlan or AlarmRule || Frozen(next.Way)) continue;
            if (!type.IsValueType && !seen.Add(next.Value)) continue;
            if (next.Value is Array array)
            {
                if (array.Length > 0 && !next.Way.EndsWith("(fixed)", StringComparison.Ordinal)) found[array] = next.Way;
                if (!array.GetType().GetElementType()!.IsPrimitive)
                    foreach (object? item in array) if (item is not null) open.Push((item, next.Way + "[]"));
                continue;
            }

            if (next.Value is Delegate call)
            {
                if (call.Target is { } target) open.Push((target, next.Way + "()"));
                continue;
            }

            bool changes = false;
            for (Type? t = type; t is not null && t != typeof(object); t = t.BaseType)
            {
                foreach (FieldInfo field in t.GetFields(BindingFlags.Instance | BindingFlags.Public
                    | BindingFlags.NonPublic | BindingFlags.DeclaredOnly))
                {
                    changes |= !field.IsInitOnly;
                    bool immutable = type.Namespace == "System.Collections.Immutable";
                    if (field.GetValue(next.Value) is { } value)
                        open.Push((value, $"{next.Way}.{field.Name}{(immutable ? "(fixed)" : "")}"));
                }
            }

            if (changes && !type.IsValueType) found[next.Value] = next.Way;
        }

        return found;
    }

    // Filled once when the program starts, and only read.
    private static bool Frozen(string way) => way.EndsWith("<Change>k__BackingField", StringComparison.Ordinal)
        || way.Contains("._draws", StringComparison.Ordinal);
}
