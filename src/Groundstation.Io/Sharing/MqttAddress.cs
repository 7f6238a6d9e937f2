using System.Globalization;
using Groundstation.Io.Sources;

namespace Groundstation.Io.Sharing;

/// <summary>A flight on an MQTT broker: <c>mqtt:[USER@]HOST[:PORT]/TOPIC</c>, or <c>mqtts:</c> with TLS.</summary>
/// <param name="Host">The broker's name or address.</param>
/// <param name="Port">Its port.</param>
/// <param name="Topic">The topic under which the flight is shared.</param>
/// <param name="Tls">Encrypted, the broker's certificate checked.</param>
/// <param name="User">User name; empty: none. The password comes from <see cref="PasswordVariable"/>.</param>
public sealed record MqttAddress(string Host, int Port, string Topic, bool Tls, string User) : SourceAddress
{
    /// <summary>
    /// Environment variable with the password: on the command line every user of the computer could read it.
    /// </summary>
    public const string PasswordVariable = "GROUNDSTATION_MQTT_PASSWORD";

    /// <summary>What is allowed.</summary>
    public const string Form = "mqtt:[USER@]HOST[:PORT]/TOPIC, as mqtt:192.168.4.1/flight; mqtts: with TLS";

    private const int PlainPort = 1883, TlsPort = 8883, LongestTopic = 100;

    /// <summary>The password in force; null: none.</summary>
    public static string? Password =>
        Environment.GetEnvironmentVariable(PasswordVariable) is { Length: > 0 } password ? password : null;

    /// <inheritdoc/>
    public override string ToString()
    {
        string user = User.Length > 0 ? User + "@" : "";
        return string.Create(CultureInfo.InvariantCulture,
            $"{(Tls ? "mqtts" : "mqtt")}:{user}{Typed(Host)}:{Port}/{Topic}");
    }

    /// <summary>Reads an address whose scheme has been seen.</summary>
    internal static MqttAddress Of(string text, string rest, bool tls)
    {
        int slash = rest.IndexOf('/', StringComparison.Ordinal);
        string topic = slash < 0 ? "" : rest[(slash + 1)..], server = slash < 0 ? rest : rest[..slash];
        int at = server.LastIndexOf('@');
        string user = at < 0 ? "" : server[..at];
        server = server[(at + 1)..];
        if (!server.EndsWith(']') && !server.Contains(':', StringComparison.Ordinal)
            || server.StartsWith('[') && server.EndsWith(']'))
            server += string.Create(CultureInfo.InvariantCulture, $":{(tls ? TlsPort : PlainPort)}");
        if (user.Contains(':', StringComparison.Ordinal))
        {
            // Not shown: it is said on screens, and kept in recordings.
            throw new UserErrorException(
                $"source 'mqtt:…': a password does not stand in the address; it comes from {PasswordVariable}");
        }

        if (!IsTopic(topic) || user.Any(UserErrorException.IsUnseen))
            throw Bad(text, Form);
        (string host, int port) = HostAndPort(text, server, Form);
        return new MqttAddress(HostName(text, host), port, topic, tls, user);
    }

    /// <summary>Names of letters, digits, - and _, with / between them: nothing that a broker takes for a pattern.</summary>
    internal static bool IsTopic(string topic) => topic.Length is > 0 and <= LongestTopic
        && topic.Split('/').All(part => part.Length > 0
            && part.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_'));
}
