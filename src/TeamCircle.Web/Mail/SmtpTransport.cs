using System.Globalization;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;
using TeamCircle.Core.Mail;

namespace TeamCircle.Web.Mail;

/// <summary>Gives mails to a mail server, one connection each. Without encryption or with a certificate that nobody trusts it says nothing at all.</summary>
public sealed partial class SmtpTransport(MailSettings settings, TimeProvider clock) : IMailTransport
{
    public string About =>
        $"Mails go through {settings.Host}, port {settings.Port.ToString(CultureInfo.InvariantCulture)}, {Encryption}, from {settings.From}.";

    private string Encryption => settings.Security switch
    {
        MailSecurity.StartTls => "encrypted (STARTTLS), the certificate is checked",
        MailSecurity.Tls => "encrypted from the first byte, the certificate is checked",
        _ => "not encrypted",
    };

    private SecureSocketOptions Options => settings.Security switch
    {
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        _ => SecureSocketOptions.None,
    };

    /// <remarks>A portal that is told to stop waits for the answer, within the time allowed: what the server took is better known than guessed.</remarks>
    public async Task<MailAnswer> SendAsync(ReadyMail mail, CancellationToken stop)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(settings.TimeoutSeconds), clock);
        try
        {
            using var message = MimeMail.Of(mail, settings, clock.GetUtcNow());
            using var client = new SmtpClient();
            Trust(client);
            await client.ConnectAsync(settings.Host!, settings.Port, Options, patience.Token);
            if (settings.User is { Length: > 0 } user)
                await client.AuthenticateAsync(user, settings.Password ?? "", patience.Token);
            var answer = await client.SendAsync(message, patience.Token);
            await GoodbyeAsync(client, patience.Token);
            return new(MailOutcome.Accepted, Words(answer));
        }
        catch (OperationCanceledException)
        {
            return new(MailOutcome.Later, $"The mail server did not answer within {settings.TimeoutSeconds.ToString(CultureInfo.InvariantCulture)} seconds.");
        }
        catch (Exception refused) when (Answer(refused) is not null)
        {
            return Answer(refused)!;
        }
    }

    // It has taken the mail: what goes wrong at the goodbye changes nothing.
    private static async Task GoodbyeAsync(SmtpClient client, CancellationToken stop)
    {
        try
        {
            await client.DisconnectAsync(true, stop);
        }
        catch (Exception gone) when (gone is IOException or ProtocolException or SocketException or OperationCanceledException)
        {
        }
    }

    private void Trust(SmtpClient client)
    {
        if (settings.Authority is not { Length: > 0 } file)
            return;
        var authority = X509CertificateLoader.LoadCertificateFromFile(file);
        client.CheckCertificateRevocation = false; // an authority of one's own publishes no list
        client.ServerCertificateValidationCallback = (_, shown, _, errors) => IsSignedBy(authority, shown, errors);
    }

    private static bool IsSignedBy(X509Certificate2 authority, X509Certificate? shown, SslPolicyErrors errors)
    {
        if (shown is null || errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
            return false;
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(authority);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        using var certificate = new X509Certificate2(shown);
        return chain.Build(certificate);
    }

    /// <summary>Null for a fault of ours.</summary>
    private static MailAnswer? Answer(Exception refused) => refused switch
    {
        SmtpCommandException { StatusCode: var code } said when (int)code >= 500 => new(MailOutcome.Refused, $"The mail server refused it ({(int)code}): {Words(said.Message)}"),
        SmtpCommandException said => new(MailOutcome.Later, $"The mail server can't take it now ({(int)said.StatusCode}): {Words(said.Message)}"),
        AuthenticationException => new(MailOutcome.Later, "The mail server does not accept the user and password."),
        SslHandshakeException => new(MailOutcome.Later, "No encrypted connection: the mail server's certificate is not trusted, or not for this host. Nothing was sent."),
        NotSupportedException => new(MailOutcome.Later, "The mail server offers no encryption (STARTTLS), or no way to sign in. Nothing was sent."),
        ProtocolException or IOException => new(MailOutcome.Later, "The mail server broke off in the middle."),
        SocketException => new(MailOutcome.Later, "The mail server can't be reached."),
        ParseException => new(MailOutcome.Refused, "The e-mail address can't be one."),
        _ => null,
    };

    /// <summary>What a server said, without the address that it may have repeated.</summary>
    private static string Words(string said)
    {
        var words = Address().Replace(said.ReplaceLineEndings(" "), "(address)").Trim();
        return words.Length > 200 ? words[..200] : words;
    }

    [GeneratedRegex(@"<?[^\s<>@]+@[^\s<>@]+>?")]
    private static partial Regex Address();
}
