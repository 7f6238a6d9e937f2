using System.Net;
using Groundstation.Io.Sources;

namespace Groundstation.Io.Sharing;

/// <summary>
/// Where a flight is shared: on a broker of the station's own (<paramref name="Listen"/>), or on one that is there.
/// </summary>
/// <param name="Broker">The broker and the topic.</param>
/// <param name="Listen">The own address on which the station's own broker listens; null: the broker is another's.</param>
public sealed record ShareTarget(MqttAddress Broker, IPAddress? Listen)
{
    /// <summary>What is allowed.</summary>
    public const string Forms = "nothing (a broker on this computer's loopback, port 1883, topic flight), "
        + "listen:[ADDRESS:]PORT/TOPIC (listens: with TLS), or a broker as " + MqttAddress.Form;

    private const string Own = "listen:", OwnTls = "listens:";

    /// <summary>Reads what stands behind <c>--share</c>; empty or null: the default.</summary>
    /// <exception cref="UserErrorException">It is none of the forms.</exception>
    public static ShareTarget Parse(string? text)
    {
        if (string.IsNullOrEmpty(text))
            text = Own + "1883/flight";
        bool tls = text.StartsWith(OwnTls, StringComparison.Ordinal);
        if (!tls && !text.StartsWith(Own, StringComparison.Ordinal))
        {
            // Any other source's own forms are no help here.
            return text.StartsWith("mqtt", StringComparison.Ordinal) && SourceAddress.Parse(text) is MqttAddress broker
                ? new ShareTarget(broker, null)
                : throw new UserErrorException($"share '{text}': {Forms}");
        }

        int slash = text.IndexOf('/', StringComparison.Ordinal);
        string topic = slash < 0 ? "flight" : text[(slash + 1)..];
        string where = text[(tls ? OwnTls : Own).Length..(slash < 0 ? text.Length : slash)];
        if (!MqttAddress.IsTopic(topic))
            throw new UserErrorException($"share '{text}': {Forms}");
        // The same forms as for datagrams: a port alone is the loopback's.
        UdpAddress own = (UdpAddress)SourceAddress.Parse("udp:" + where);
        bool any = own.Address.Equals(IPAddress.Any) || own.Address.Equals(IPAddress.IPv6Any);
        string host = any ? IPAddress.Loopback.ToString() : own.Address.ToString();
        return new ShareTarget(new MqttAddress(host, own.Port, topic, tls, "station"), own.Address);
    }
}
