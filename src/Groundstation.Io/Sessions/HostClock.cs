using System.Globalization;
using Groundstation.Core.Quantities;

namespace Groundstation.Io.Sessions;

/// <summary>
/// Arrival stamps: the host's UTC at the start plus the running time of its monotonic counter, whole milliseconds. A
/// host clock that is set, a time zone or a summer time never move them; <see cref="Check"/> tells when the host clock
/// goes its own way. Time in which the computer slept is added: an age must not come out too young.
/// </summary>
internal sealed class HostClock
{
    /// <summary>Difference that is told, s: more than any network time service slews in a flight.</summary>
    public const double StepS = 2;

    private readonly TimeProvider _time;
    private readonly Func<double?> _uptimeS;
    private readonly long _start;
    private Instant _base;
    private double _offsetS;
    private double _asleepS;

    /// <summary>A clock that starts now.</summary>
    /// <param name="time">The host's clocks.</param>
    /// <param name="notBefore">The last stamp of an earlier session of the same flight; null when there is none.
    /// </param>
    /// <param name="uptimeS">Seconds since the host started, sleep included; null: as the system tells.</param>
    public HostClock(TimeProvider time, Instant? notBefore = null, Func<double?>? uptimeS = null)
    {
        _time = time;
        _uptimeS = uptimeS ?? Uptime;
        _start = time.GetTimestamp();
        _base = HostUtc();
        if (notBefore is { } last && _base < last)
        {
            // Otherwise every stamp would stand still until the host clock has caught up.
            StartedBehindS = last.SecondsSince(_base);
            _base = last + TimeSpan.FromMilliseconds(1);
        }

        _offsetS = OffsetS();
        _asleepS = AsleepS();
    }

    /// <summary>
    /// Seconds by which the host clock was behind the flight's last stamp at the start; 0 when it was not.
    /// </summary>
    public double StartedBehindS { get; }

    /// <summary>By how much the host clock was set as the newest look saw it, s, forward positive; 0 when it was not.
    /// </summary>
    public double SetS { get; private set; }

    /// <summary>The stamp for something that comes now.</summary>
    public Instant Now => Instant.FromUnixMilliseconds((_base + _time.GetElapsedTime(_start)).UnixMilliseconds);

    /// <summary>Looks for a step of the host clock since the last look; gives it in words, or null.</summary>
    public string? Check()
    {
        SetS = 0;
        double asleep = AsleepS();
        double slept = asleep - _asleepS;
        if (slept > StepS)
        {
            _base = _base.PlusSeconds(slept);
            _asleepS = asleep;
            _offsetS = OffsetS();
            return string.Create(CultureInfo.InvariantCulture,
                $"this computer slept for {slept:F0} s: nothing was received in that time");
        }

        double step = OffsetS() - _offsetS;
        if (Math.Abs(step) < StepS)
            return null;
        _offsetS += step;
        SetS = step;
        string way = step > 0 ? "forward" : "back";
        return string.Create(CultureInfo.InvariantCulture,
            $"the host clock was set {way} by {Math.Abs(step):F0} s: stamps go on unchanged");
    }

    private Instant HostUtc() => Instant.FromUnixMilliseconds(_time.GetUtcNow().ToUnixTimeMilliseconds());

    private double OffsetS() => HostUtc().SecondsSince(Now);

    /// <summary>Sleep since some fixed moment: uptime that the monotonic counter does not have.</summary>
    private double AsleepS() => _uptimeS() is { } up ? up - _time.GetElapsedTime(_start).TotalSeconds : _asleepS;

    private static double? Uptime()
    {
        // CLOCK_BOOTTIME on Linux; elsewhere the monotonic counter itself goes on in sleep.
        if (!OperatingSystem.IsLinux())
            return null;
        try
        {
            string text = File.ReadAllText("/proc/uptime");
            return double.TryParse(text.AsSpan(0, Math.Max(0, text.IndexOf(' ', StringComparison.Ordinal))),
                NumberStyles.Float, CultureInfo.InvariantCulture, out double s) ? s : null;
        }
        catch (IOException)
        {
            return null;
        }
    }
}
