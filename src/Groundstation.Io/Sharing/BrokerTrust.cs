using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Groundstation.Io.Storage;

namespace Groundstation.Io.Sharing;

/// <summary>
/// Whom a broker's certificate must be from: an authority that this computer trusts; with <see cref="SignerVariable"/>
/// the signers in that file instead; for the station's own broker exactly its own certificate.
/// </summary>
internal sealed class BrokerTrust
{
    /// <summary>Environment variable with a PEM file: certificates that may sign the broker's, or the broker's own.
    /// </summary>
    public const string SignerVariable = "GROUNDSTATION_MQTT_SIGNER";

    /// <summary>Environment variable with a PEM file: certificate and key of the station's own broker.</summary>
    public const string CertificateVariable = "GROUNDSTATION_MQTT_CERTIFICATE";

    private readonly string _host;
    private readonly X509Certificate2Collection? _signers;
    private readonly X509Certificate2? _own;

    /// <summary>Trust in another's broker.</summary>
    /// <exception cref="UserErrorException">The signers' file cannot be read.</exception>
    public BrokerTrust(MqttAddress address)
    {
        _host = address.Host;
        if (address.Tls && File(SignerVariable) is { } path)
            _signers = Read(path, () =>
            {
                X509Certificate2Collection signers = [];
                signers.ImportFromPemFile(path);
                return signers.Count > 0 ? signers : throw new CryptographicException("no certificate in it");
            });
    }

    /// <summary>Trust in the station's own broker.</summary>
    public BrokerTrust(X509Certificate2? own) => (_host, _own) = ("", own);

    /// <summary>Why the newest certificate was not trusted; empty when it was.</summary>
    public string Why { get; private set; } = "";

    /// <summary>Certificate and key of the station's own broker.</summary>
    /// <exception cref="UserErrorException">None is named, or it cannot be read.</exception>
    public static X509Certificate2 OwnCertificate()
    {
        string path = File(CertificateVariable) ?? throw new UserErrorException(
            $"share: a broker with TLS needs a certificate: name a PEM file with it and its key in {CertificateVariable}");
        return Read(path, () =>
        {
            using X509Certificate2 pem = X509Certificate2.CreateFromPemFile(path);
            // Windows serves TLS with keys from its own store only.
            return X509CertificateLoader.LoadPkcs12(pem.Export(X509ContentType.Pkcs12), null);
        });
    }

    /// <summary>Judges a certificate as it is presented.</summary>
    public bool Trusts(X509Certificate? certificate, X509Chain? presented, SslPolicyErrors errors)
    {
        Why = Doubt(certificate as X509Certificate2, presented, errors);
        return Why.Length == 0;
    }

    private string Doubt(X509Certificate2? certificate, X509Chain? presented, SslPolicyErrors errors)
    {
        if (certificate is null)
            return "the broker shows no certificate";
        if (_own is not null)
            return certificate.RawDataMemory.Span.SequenceEqual(_own.RawDataMemory.Span) ? ""
                : "another broker answers on the station's own port";
        if (errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
            return $"the broker's certificate is not for {_host} but for "
                + $"{UserErrorException.OneLine(certificate.GetNameInfo(X509NameType.DnsName, false))}";
        if (_signers is null)
            return errors == SslPolicyErrors.None ? "" : Doubt(certificate, presented?.ChainStatus ?? []);
        using X509Chain chain = new();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(_signers);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        foreach (X509ChainElement link in presented?.ChainElements ?? Enumerable.Empty<X509ChainElement>())
            chain.ChainPolicy.ExtraStore.Add(link.Certificate);
        return chain.Build(certificate) ? "" : Doubt(certificate, chain.ChainStatus);
    }

    private static string Doubt(X509Certificate2 certificate, X509ChainStatus[] faults) =>
        faults.Any(f => f.Status.HasFlag(X509ChainStatusFlags.NotTimeValid))
            ? FormattableString.Invariant($"the broker's certificate is valid from {certificate.NotBefore:yyyy-MM-dd} to ")
                + FormattableString.Invariant($"{certificate.NotAfter:yyyy-MM-dd} only (is this computer's date right?)")
            : "the broker's certificate is signed by nobody whom this computer trusts; "
                + $"name the signer's certificate, a PEM file, in {SignerVariable}";

    private static string? File(string variable) =>
        Environment.GetEnvironmentVariable(variable) is { Length: > 0 } path ? path : null;

    private static T Read<T>(string path, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (FileTrouble.Is(e) || e is CryptographicException)
        {
            throw new UserErrorException($"{path}: cannot be read as a PEM certificate ({FileTrouble.Words(e)})", e);
        }
    }
}
