using System.Net.Sockets;
using Polly.Timeout;

namespace Groundstation.Io.Sources;

/// <summary>A source cannot be opened or read, told in plain words.</summary>
internal sealed class SourceTroubleException(string message, Exception? inner = null) : IOException(message, inner);

/// <summary>Plain words for what ports and sockets say.</summary>
internal static class SourceTrouble
{
    private const int NoEntry = 2, InputOutput = 5, NoDeviceOrAddress = 6, Access = 13, Busy = 16, NoDevice = 19,
        NotTerminal = 25;

    private const int WinNoEntry = Win + 2, WinAccess = Win + 5, WinBadCommand = Win + 22, WinNotWorking = Win + 31,
        WinShared = Win + 32, WinNoDevice = Win + 433, WinAborted = Win + 995, WinNotConnected = Win + 1167;

    private const int Win = unchecked((int)0x80070000);

    /// <summary>True for the exceptions that opening, reading and closing a source can end in.</summary>
    public static bool Is(Exception e) => e is IOException or UnauthorizedAccessException or InvalidOperationException
        or ObjectDisposedException or SocketException or TimeoutRejectedException or TimeoutException
        or ArgumentException or PlatformNotSupportedException;

    /// <summary>The cause in a few words.</summary>
    public static string Words(Exception e) => e switch
    {
        SourceTroubleException => e.Message,
        TimeoutRejectedException or TimeoutException => "no answer within 3 s",
        SocketException socket => Words(socket),
        { InnerException: SocketException socket } => Words(socket),
        ObjectDisposedException => "unplugged (the other end is gone)",
        UnauthorizedAccessException { InnerException: { } inner } => OfSerial(inner),
        _ => OfSerial(e),
    };

    /// <summary>
    /// All serial open errors look alike on Unix; the system's error number is in the inner one. Windows has numbers of
    /// its own, and refuses access to a port that another program has open.
    /// </summary>
    private static string OfSerial(Exception e) => e switch
    {
        ArgumentException { ParamName: "portName" } => "not a serial port (Windows calls them COM1, COM2 …)",
        { HResult: NoEntry or WinNoEntry } => "absent (no such device)",
        { HResult: Access } => "permission denied (is this user in the group that may use serial ports?)",
        { HResult: Busy or WinAccess or WinShared } => "busy (another program has it open)",
        { HResult: NotTerminal } => "not a serial port",
        { HResult: NoDevice or NoDeviceOrAddress or WinNoDevice } => "absent (no device behind that name)",
        { HResult: InputOutput or WinNotWorking or WinBadCommand or WinAborted or WinNotConnected } =>
            "unplugged or not working (input/output error)",
        _ => UserErrorException.OneLine(e.Message).TrimEnd('.', ' '),
    };

    private static string Words(SocketException e) => e.SocketErrorCode switch
    {
        SocketError.ConnectionRefused => "refused (nothing listens there)",
        SocketError.HostNotFound or SocketError.NoData => "no such host",
        SocketError.TryAgain => "the name server does not answer",
        SocketError.HostUnreachable or SocketError.NetworkUnreachable or SocketError.NetworkDown => "no way there",
        SocketError.TimedOut => "no longer answers (half-open connection)",
        SocketError.ConnectionReset or SocketError.ConnectionAborted => "connection broken by the other end",
        SocketError.AddressAlreadyInUse => "busy (another program listens on that port)",
        SocketError.AddressNotAvailable => "not an address of this computer",
        SocketError.AccessDenied => "permission denied",
        SocketError.OperationAborted or SocketError.Interrupted => "closed",
        _ => UserErrorException.OneLine(e.Message).TrimEnd('.', ' '),
    };
}
