using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace TeamCircle.Testing;

/// <summary>An authority of a test's own, and a certificate that it signed for this machine's name.</summary>
/// <param name="File">The authority's certificate, as a client is given it.</param>
/// <param name="Certificate">With its key, as a server shows it.</param>
public sealed record TestAuthority(string File, X509Certificate2 Certificate)
{
    /// <param name="folder">Where the file is to lie; it gets a name of its own.</param>
    public static TestAuthority Make(string folder)
    {
        var (from, to) = (DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(200));
        using var authorityKey = RSA.Create(2048);
        var authority = new CertificateRequest("CN=An authority of our own", authorityKey, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        authority.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        using var root = authority.CreateSelfSigned(from, to);
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        request.CertificateExtensions.Add(names.Build());
        using var signed = request.Create(root, from, to, [1, 2, 3, 4]);
        using var own = signed.CopyWithPrivateKey(key);
        var file = Path.Combine(folder, $"authority-{Path.GetRandomFileName()}.pem");
        System.IO.File.WriteAllText(file, root.ExportCertificatePem());
        return new(file, X509CertificateLoader.LoadPkcs12(own.Export(X509ContentType.Pfx), null, X509KeyStorageFlags.Exportable));
    }
}
