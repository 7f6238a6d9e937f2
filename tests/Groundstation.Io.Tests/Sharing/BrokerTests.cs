using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Groundstation.Io.Sharing;
using MQTTnet.Protocol;
using MQTTnet.Server;
using Xunit;

namespace Groundstation.Io.Tests.Sharing;

/// <summary>A flight shared over a broker that is there already: passwords, certificates, restarts.</summary>
public sealed class BrokerTests : SharedFlights
{
    private const string Password = "GROUNDSTATION_MQTT_PASSWORD", Signer = "GROUNDSTATION_MQTT_SIGNER",
        Certificate = "GROUNDSTATION_MQTT_CERTIFICATE";

    public override void Dispose()
    {
        foreach (string variable in (string[])[Password, Signer, Certificate])
            Environment.SetEnvironmentVariable(variable, null);
        base.Dispose();
    }

    [Fact]
    public async Task A_broker_that_wants_a_password_gets_it_and_no_file_and_no_word_tells_it()
    {
        using MqttServer broker = await Broker(password: "geheim");
        Environment.SetEnvironmentVariable(Password, "geheim");
        using Publisher publisher = new(Temp["shared"], $"mqtt:team@127.0.0.1:{Port}/flight", Limit);
        await publisher.Send(0, 60);
        using (FollowSession follower = Follow("copy", $"mqtt:team@127.0.0.1:{Port}/flight"))
        {
            await Followed(follower, "copy", "GPGGA,120059.00");
            await publisher.Stop();
            await Followed(follower, "copy", "$PGSE,END");
        }

        AssertSame("shared", "copy");
        Assert.Equal([$"shared as mqtt:team@127.0.0.1:{Port}/flight"], publisher.Said);
        string[] files = [.. Directory.EnumerateFiles(Temp["."], "*.*", SearchOption.AllDirectories)
            .Where(file => !file.EndsWith(".lock", StringComparison.Ordinal))];
        Assert.True(files.Length > 12);
        Assert.All(files, file =>
            Assert.DoesNotContain("geheim", File.ReadAllText(file), StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("falsch", "refused: the broker does not take this user with this password")]
    [InlineData(null, "refused: the broker wants a user (mqtt:USER@HOST…) and a password (GROUNDSTATION_MQTT_PASSWORD)")]
    public async Task A_wrong_password_and_none_are_told_apart(string? password, string why)
    {
        using MqttServer broker = await Broker(password: "geheim");
        Environment.SetEnvironmentVariable(Password, password);
        using Publisher publisher = new(Temp["shared"], $"mqtt:team@127.0.0.1:{Port}/flight", Limit);
        await Until(() => publisher.Said.Contains("not shared: " + why));
        string message = Assert.Throws<UserErrorException>(
            () => Follow("copy", $"mqtt:team@127.0.0.1:{Port}/flight")).Message;
        Assert.EndsWith("cannot be followed: " + why, message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Over_TLS_a_self_made_certificate_is_trusted_once_it_is_named()
    {
        using X509Certificate2 made = Made("127.0.0.1");
        using MqttServer broker = await Broker(made);
        File.WriteAllText(Temp["signer.pem"], made.ExportCertificatePem());
        string where = $"mqtts:127.0.0.1:{Port}/flight";
        using (Publisher doubtful = new(Temp["doubtful"], where, Limit))
            await Until(() => doubtful.Said.Contains("not shared: the broker's certificate is signed by nobody whom this "
                + "computer trusts; name the signer's certificate, a PEM file, in GROUNDSTATION_MQTT_SIGNER"));

        Environment.SetEnvironmentVariable(Signer, Temp["signer.pem"]);
        using Publisher publisher = new(Temp["shared"], where, Limit);
        await publisher.Send(0, 60);
        using (FollowSession follower = Follow("copy", where))
            await Followed(follower, "copy", "GPGGA,120059.00");
        Assert.StartsWith(Read("copy"), Read("shared"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("radio.example", 1, "the broker's certificate is not for 127.0.0.1 but for radio.example")]
    [InlineData("127.0.0.1", -1, "only (is this computer's date right?)")]
    public async Task A_certificate_for_another_host_or_another_time_is_told(string host, int untilDays, string why)
    {
        using X509Certificate2 made = Made(host, untilDays);
        using MqttServer broker = await Broker(made);
        File.WriteAllText(Temp["signer.pem"], made.ExportCertificatePem());
        Environment.SetEnvironmentVariable(Signer, Temp["signer.pem"]);
        using Publisher publisher = new(Temp["shared"], $"mqtts:127.0.0.1:{Port}/flight", Limit);
        await Until(() => publisher.Said.Any(said => said.EndsWith(why, StringComparison.Ordinal)),
            () => ", but " + string.Join(" | ", publisher.Said));
    }

    [Theory]
    [InlineData(true, "mqtt", "does it want TLS (mqtts:)?")]
    [InlineData(false, "mqtts", "does it speak TLS on that port?")]
    public async Task TLS_on_one_side_only_is_told(bool broker, string scheme, string why)
    {
        using X509Certificate2? made = broker ? Made("127.0.0.1") : null;
        using MqttServer server = await Broker(made);
        using Publisher publisher = new(Temp["shared"], $"{scheme}:127.0.0.1:{Port}/flight", Limit);
        await Until(() => publisher.Said.Any(said => said.EndsWith(why, StringComparison.Ordinal)),
            () => ", but " + string.Join(" | ", publisher.Said));
    }

    [Fact]
    public void A_file_that_is_no_certificate_is_told_in_one_line()
    {
        Environment.SetEnvironmentVariable(Signer, Temp.Write("none.pem", "nothing"));
        string message = Assert.Throws<UserErrorException>(() => Follow("copy", "mqtts:127.0.0.1/flight")).Message;
        Assert.Contains("none.pem: cannot be read as a PEM certificate", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_stations_own_broker_has_TLS_with_a_certificate_and_no_other_station_passes_for_it()
    {
        using X509Certificate2 made = Made("127.0.0.1");
        File.WriteAllText(Temp["own.pem"],
            made.ExportCertificatePem() + "\n" + made.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem());
        Environment.SetEnvironmentVariable(Certificate, Temp["own.pem"]);
        using Publisher publisher = new(Temp["shared"], $"listens:{Port}/flight", Limit);
        await publisher.Send(0, 60);
        Environment.SetEnvironmentVariable(Signer, Temp["own.pem"]);
        using (FollowSession follower = Follow("copy", $"mqtts:127.0.0.1:{Port}/flight"))
            await Followed(follower, "copy", "GPGGA,120059.00");
        Assert.StartsWith(Read("copy"), Read("shared"), StringComparison.Ordinal);
        Environment.SetEnvironmentVariable(Certificate, null);
        Assert.Contains(Certificate, Assert.Throws<UserErrorException>(
            () => new FlightShare(ShareTarget.Parse($"listens:{Port}/flight"), Temp["shared"], _ => { })).Message,
            StringComparison.Ordinal);
    }

    // Retained messages are gone with the broker, and what was published meanwhile: both must come again.
    [Fact]
    public async Task Two_followers_have_all_of_it_after_the_broker_was_down_twice()
    {
        MqttServer broker = await Broker();
        using Publisher publisher = new(Temp["shared"], $"mqtt:127.0.0.1:{Port}/flight", Limit);
        await publisher.Send(0, 60);
        using (FollowSession first = Follow("first"), second = Follow("second"))
        {
            Task both = Task.WhenAll(Followed(first, "first", "$PGSE,END"), Followed(second, "second", "$PGSE,END"));
            for (int down = 1; down <= 2; down++)
            {
                await Until(() => Read("first").Contains($"GPGGA,12{down - 1:00}59.00", StringComparison.Ordinal));
                await broker.StopAsync(new MqttServerStopOptions());
                broker.Dispose();
                await publisher.Send(60 * down, 60 * down + 30);
                await Until(() => Read("shared").Contains($"GPGGA,12{down:00}29.00", StringComparison.Ordinal));
                broker = await Broker();
                await publisher.Send(60 * down + 30, 60 * down + 60);
            }

            await Until(() => Read("second").Contains("GPGGA,120259.00", StringComparison.Ordinal));
            await publisher.Stop();
            await both;
        }

        broker.Dispose();
        AssertSame("shared", "first");
        AssertSame("shared", "second");
    }

    private async Task<MqttServer> Broker(X509Certificate2? certificate = null, string? password = null)
    {
        MqttServerOptionsBuilder options = new MqttServerOptionsBuilder();
        if (certificate is null)
            options.WithDefaultEndpoint().WithDefaultEndpointBoundIPAddress(IPAddress.Loopback)
                .WithDefaultEndpointPort(Port);
        else
            options.WithoutDefaultEndpoint().WithEncryptedEndpoint().WithEncryptedEndpointPort(Port)
                .WithEncryptedEndpointBoundIPAddress(IPAddress.Loopback).WithEncryptionCertificate(certificate);
        MqttServer server = new MqttServerFactory().CreateMqttServer(options.Build());
        server.ValidatingConnectionAsync += visitor =>
        {
            if (password is not null && (visitor.UserName, visitor.Password) != ("team", password))
                visitor.ReasonCode = MqttConnectReasonCode.BadUserNameOrPassword;
            return Task.CompletedTask;
        };
        await server.StartAsync();
        return server;
    }

    /// <summary>A certificate that is signed by itself.</summary>
    private static X509Certificate2 Made(string host, int untilDays = 1)
    {
        using ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        CertificateRequest request = new("CN=" + host, key, HashAlgorithmName.SHA256);
        SubjectAlternativeNameBuilder names = new();
        if (IPAddress.TryParse(host, out IPAddress? address))
            names.AddIpAddress(address);
        else
            names.AddDnsName(host);
        request.CertificateExtensions.Add(names.Build());
        DateTimeOffset now = DateTimeOffset.UtcNow;
        using X509Certificate2 made = request.CreateSelfSigned(now.AddDays(-9), now.AddDays(untilDays));
        return X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pkcs12), null,
            X509KeyStorageFlags.Exportable);
    }
}
