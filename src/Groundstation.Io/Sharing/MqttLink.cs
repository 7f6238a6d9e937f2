using System.Buffers;
using MQTTnet;
using MQTTnet.Protocol;

namespace Groundstation.Io.Sharing;

/// <summary>A connection to a broker that is made again whenever it is lost.</summary>
/// <param name="address">The broker.</param>
/// <param name="client">The name by which the broker knows this end.</param>
/// <param name="trust">Judges the broker's certificate.</param>
/// <param name="topics">What is listened to.</param>
internal sealed class MqttLink(MqttAddress address, string client, BrokerTrust trust, params string[] topics)
    : IDisposable
{
    private static readonly TimeSpan _wait = TimeSpan.FromSeconds(1), _longest = TimeSpan.FromSeconds(3);
    private volatile bool _greeted;
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();

    /// <summary>Takes each message, one after the other; the payload is its own.</summary>
    public Action<string, byte[]> Heard { get; init; } = (_, _) => { };

    /// <summary>Told when the connection is up (empty), and why it is not.</summary>
    public Action<string> State { get; init; } = _ => { };

    /// <summary>True while connected.</summary>
    public bool IsUp => _client.IsConnected;

    /// <summary>Runs until stopped.</summary>
    public async Task RunAsync(CancellationToken stop)
    {
        _client.ApplicationMessageReceivedAsync += message =>
        {
            // At a stop who waits for room gives up.
            if (!stop.IsCancellationRequested)
                Heard(message.ApplicationMessage.Topic, message.ApplicationMessage.Payload.ToArray());
            return Task.CompletedTask;
        };
        string told = "-";
        while (!stop.IsCancellationRequested)
        {
            string why;
            try
            {
                why = await Visit(stop).ConfigureAwait(false);
            }
            catch (Exception e) when (!stop.IsCancellationRequested)
            {
                why = Words(e);
            }
            catch (OperationCanceledException)
            {
                return;
            }

            if (why != told)
                State(told = why);
            await Task.Delay(_wait, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        async Task<string> Visit(CancellationToken stop)
        {
            TaskCompletionSource<string> lost = new(TaskCreationOptions.RunContinuationsAsynchronously);
            Func<MqttClientDisconnectedEventArgs, Task> onLost = e =>
            {
                lost.TrySetResult(e.Exception is { } x ? Words(x) : "the broker hung up");
                return Task.CompletedTask;
            };
            _client.DisconnectedAsync += onLost;
            try
            {
                MqttClientConnectResult result = await _client.ConnectAsync(Options(), stop).ConfigureAwait(false);
                _greeted = true;
                if (result.ResultCode != MqttClientConnectResultCode.Success)
                    return Words(result.ResultCode);
                MqttClientSubscribeOptionsBuilder wanted = new();
                foreach (string topic in topics)
                    wanted.WithTopicFilter(topic, MqttQualityOfServiceLevel.AtLeastOnce);
                await _client.SubscribeAsync(wanted.Build(), stop).ConfigureAwait(false);
                State(told = "");
                return await lost.Task.WaitAsync(stop).ConfigureAwait(false);
            }
            finally
            {
                _client.DisconnectedAsync -= onLost;
            }
        }
    }

    /// <summary>Publishes; false when that is not possible now.</summary>
    /// <param name="topic">Under which topic.</param>
    /// <param name="payload">What.</param>
    /// <param name="retain">The broker keeps it for those who come later.</param>
    /// <param name="stop">Ends it.</param>
    /// <param name="acknowledged">Waits until the broker has it: once a round trip.</param>
    public async Task<bool> PublishAsync(string topic, ReadOnlyMemory<byte> payload, bool retain, CancellationToken stop,
        bool acknowledged = true)
    {
        try
        {
            MqttApplicationMessage message = new MqttApplicationMessageBuilder().WithTopic(topic)
                .WithPayload(new ReadOnlySequence<byte>(payload)).WithRetainFlag(retain)
                .WithQualityOfServiceLevel(acknowledged ? MqttQualityOfServiceLevel.AtLeastOnce
                    : MqttQualityOfServiceLevel.AtMostOnce).Build();
            // Cancelled, not left behind: what waits for a slow broker would pile up.
            using CancellationTokenSource limit = CancellationTokenSource.CreateLinkedTokenSource(stop);
            // 20 kB/s is a poor mobile link.
            limit.CancelAfter(_longest + TimeSpan.FromSeconds(payload.Length / 20_000.0));
            await _client.PublishAsync(message, limit.Token).ConfigureAwait(false);
            return true;
        }
        catch (Exception) when (!stop.IsCancellationRequested)
        {
            return false;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _client.Dispose();

    private MqttClientOptions Options()
    {
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder().WithTcpServer(address.Host, address.Port)
            .WithClientId(client).WithCleanStart().WithTimeout(_longest).WithKeepAlivePeriod(TimeSpan.FromSeconds(5));
        if (address.User.Length > 0 || MqttAddress.Password is not null)
            options.WithCredentials(address.User, MqttAddress.Password ?? "");
        if (address.Tls)
        {
            options.WithTlsOptions(tls => tls.UseTls().WithCertificateValidationHandler(shown =>
                trust.Trusts(shown.Certificate, shown.Chain, shown.SslPolicyErrors)));
        }

        return options.Build();
    }

    private static string Words(MqttClientConnectResultCode refused) => refused switch
    {
        MqttClientConnectResultCode.NotAuthorized or MqttClientConnectResultCode.BadUserNameOrPassword
            or MqttClientConnectResultCode.BadAuthenticationMethod => MqttAddress.Password is null
            ? $"refused: the broker wants a user (mqtt:USER@HOST…) and a password ({MqttAddress.PasswordVariable})"
            : "refused: the broker does not take this user with this password",
        _ => $"refused by the broker ({refused})",
    };

    private string Words(Exception e)
    {
        if (address.Tls && trust.Why.Length > 0)
            return trust.Why;
        // The library wraps what the socket says.
        while (e is not System.Net.Sockets.SocketException && e.InnerException is { } inner)
            e = inner;
        string words = e is OperationCanceledException ? "no answer within 3 s" : Sources.SourceTrouble.Words(e);
        // What a plain port answers to TLS, and a port with TLS to plain bytes, is no word of MQTT but an end.
        bool hungUp = e is not (System.Net.Sockets.SocketException or OperationCanceledException)
            || e is System.Net.Sockets.SocketException { SocketErrorCode: System.Net.Sockets.SocketError.ConnectionReset };
        return !hungUp || _greeted ? words : address.Tls ? "the broker hangs up: does it speak TLS on that port?"
            : "the broker hangs up: does it want TLS (mqtts:)?";
    }
}
