using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using MQTTnet.Protocol;
using MQTTnet.Server;

namespace Groundstation.Io.Sharing;

/// <summary>
/// A broker inside the station. Only the station publishes there; whoever follows may ask (<c>TOPIC/want</c>), nothing
/// else. With a password set, every visitor needs it.
/// </summary>
internal sealed class OwnBroker : IDisposable
{
    // A follower on a bad link must not make the station keep hours for it: it asks again.
    private const int MostPending = 500;

    private const int LongestWant = 100;

    private readonly MqttServer _server;

    /// <summary>Starts listening.</summary>
    /// <exception cref="UserErrorException">The port cannot be had.</exception>
    public OwnBroker(ShareTarget target, string station, string? password, X509Certificate2? certificate)
    {
        IPAddress v4 = target.Listen!.AddressFamily == AddressFamily.InterNetwork ? target.Listen : IPAddress.None,
            v6 = target.Listen.AddressFamily == AddressFamily.InterNetworkV6 ? target.Listen : IPAddress.None;
        MqttServerOptionsBuilder options = new MqttServerOptionsBuilder()
            .WithMaxPendingMessagesPerClient(MostPending);
        if (certificate is null)
        {
            options.WithDefaultEndpoint().WithDefaultEndpointPort(target.Broker.Port)
                .WithDefaultEndpointBoundIPAddress(v4).WithDefaultEndpointBoundIPV6Address(v6);
        }
        else
        {
            options.WithoutDefaultEndpoint().WithEncryptedEndpoint().WithEncryptedEndpointPort(target.Broker.Port)
                .WithEncryptedEndpointBoundIPAddress(v4).WithEncryptedEndpointBoundIPV6Address(v6)
                .WithEncryptionCertificate(certificate);
        }

        _server = new MqttServerFactory().CreateMqttServer(options.Build());
        _server.ValidatingConnectionAsync += visitor =>
        {
            if (password is not null && visitor.Password != password)
                visitor.ReasonCode = MqttConnectReasonCode.BadUserNameOrPassword;
            return Task.CompletedTask;
        };
        _server.InterceptingPublishAsync += message =>
        {
            message.ProcessPublish = message.ClientId == station
                || (message.ApplicationMessage.Topic == target.Broker.Topic + "/want"
                    && message.ApplicationMessage is { Retain: false, Payload.Length: <= LongestWant });
            return Task.CompletedTask;
        };
        try
        {
            _server.StartAsync().GetAwaiter().GetResult();
        }
        catch (Exception e) when (e is SocketException or IOException)
        {
            throw new UserErrorException($"share: port {target.Broker.Port} of {target.Listen} cannot be listened on "
                + $"({Sources.SourceTrouble.Words(e)}); name another with --share=listen:PORT/TOPIC", e);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _server.StopAsync(new MqttServerStopOptions()).Wait(TimeSpan.FromSeconds(1));
        _server.Dispose();
    }
}
