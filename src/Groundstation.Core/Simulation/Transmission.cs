using System.Text;
using Groundstation.Core.Quantities;

namespace Groundstation.Core.Simulation;

/// <summary>A stretch of bytes as it comes to the laptop.</summary>
/// <param name="At">Arrival time of its last byte by the laptop's clock.</param>
/// <param name="Bytes">The bytes: one sentence with CR LF, unless damaged.</param>
public readonly record struct ArrivedBytes(Instant At, byte[] Bytes);

/// <summary>
/// Carries epochs over radio and serial line: sentences of an epoch come one behind the other at the line's speed,
/// some damaged. Mutable; belongs to one flight.
/// </summary>
public sealed class Transmission
{
    private readonly SimulatedRadio _set;
    private readonly EpochSentences _sentences;
    private readonly SeededRandom _timing, _damage;
    private readonly List<string> _said = new(16);
    private Instant _free;

    /// <summary>The way of one flight's sentences.</summary>
    public Transmission(Scenario scenario)
    {
        _set = scenario.Radio;
        _sentences = new EpochSentences(scenario);
        _timing = new SeededRandom(scenario.Seed, 7);
        _damage = new SeededRandom(scenario.Seed, 8);
        _free = new Instant(long.MinValue);
    }

    /// <summary>What of an epoch comes to the laptop, in order of arrival; nothing when it is not heard.</summary>
    public void Carry(in SimulatedEpoch epoch, ICollection<ArrivedBytes> to)
    {
        _said.Clear();
        // A tracker that is not heard speaks all the same: its rounds of slow sentences go on.
        _sentences.Say(epoch, _said);
        double latency = Math.Max(0.02, _set.LatencyS + _set.LatencySigmaS * _timing.NextGaussian());
        if (epoch.Reception != Reception.Heard)
            return;
        Instant start = epoch.Receiver.Utc.PlusSeconds(latency + _set.ClockAheadS);
        if (start > _free)
            _free = start;
        foreach (string sentence in _said)
        {
            byte[] bytes = Encoding.ASCII.GetBytes(sentence + "\r\n");
            _free = _free.PlusSeconds(bytes.Length * 10.0 / _set.Baud);
            if (_set.DamagedShare > 0 && _damage.NextChance(_set.DamagedShare))
                bytes = Damage(bytes);
            if (_set.ReadBaud is { } read && read != _set.Baud)
                bytes = [.. UartLine.Read(bytes, _set.Baud, read).Select(b => b.Value)];
            if (bytes.Length > 0)
                to.Add(new(_free, bytes));
        }
    }

    private byte[] Damage(byte[] bytes)
    {
        int at = _damage.NextBelow(bytes.Length);
        switch (_damage.NextBelow(4))
        {
            case 0: // one to three bytes with a bit turned
                for (int n = 1 + _damage.NextBelow(3); n > 0; n--)
                    bytes[_damage.NextBelow(bytes.Length)] ^= (byte)(1 << _damage.NextBelow(8));
                return bytes;
            case 1: // a hole
                int length = Math.Min(bytes.Length - at, 1 + _damage.NextBelow(12));
                return [.. bytes.AsSpan(0, at), .. bytes.AsSpan(at + length)];
            case 2: // the end cut off, with its line end: the next sentence is glued on
                return bytes[..at];
            default: // noise in the middle
                byte[] noise = new byte[1 + _damage.NextBelow(6)];
                for (int i = 0; i < noise.Length; i++)
                    noise[i] = (byte)_damage.NextBelow(256);
                return [.. bytes.AsSpan(0, at), .. noise, .. bytes.AsSpan(at)];
        }
    }
}
