using MimeKit;
using TeamCircle.Data;

namespace TeamCircle.Web.Mail;

/// <summary>How the way to the mail server is kept secret.</summary>
public enum MailSecurity
{
    /// <summary>Begins in the clear and must become encrypted before anything is said (RFC 3207).</summary>
    StartTls,

    /// <summary>Encrypted from the first byte.</summary>
    Tls,

    /// <summary>Not at all: for a server on the same machine.</summary>
    None,
}

/// <summary>How mails leave, from the settings <c>Mail:…</c> (docs/operations.md).</summary>
public sealed record MailSettings
{
    /// <summary>The mail server; null: mails are kept in <see cref="Folder"/> and go to nobody.</summary>
    public string? Host { get; init; }
    public int Port { get; init; } = 587;
    public MailSecurity Security { get; init; } = MailSecurity.StartTls;

    /// <summary>A file with the certificate of the authority that signed the server's, where this machine does not trust it; null otherwise.</summary>
    public string? Authority { get; init; }
    public string? User { get; init; }
    public string? Password { get; init; }

    /// <summary>A file with the password, in its place.</summary>
    public string? PasswordFile { get; init; }

    /// <summary>The sender's address.</summary>
    public string From { get; init; } = "portal@teamcircle.invalid";

    /// <summary>The portal's own public address, for the links in mails; ends without a slash.</summary>
    public string Address { get; init; } = "";
    public string Folder { get; init; } = "";

    /// <summary>The server's answer is waited for so long, and no longer than <see cref="LongestTimeoutSeconds"/>.</summary>
    public int TimeoutSeconds { get; init; } = 20;

    /// <summary>The mail's own transaction asks nothing of the database meanwhile, which takes it back after a minute: a mail that the server took would then be sent again.</summary>
    private const int LongestTimeoutSeconds = 45;

    /// <summary>The pause after a mail's first try; later ones grow. Longer than <see cref="TimeoutSeconds"/>.</summary>
    public int FirstPauseSeconds { get; init; } = 60;

    /// <summary>How often the portal looks for mails that are due.</summary>
    public int EverySeconds { get; init; } = 5;

    /// <exception cref="StartupFailure">Something is missing that a mail server needs.</exception>
    public static MailSettings Read(IConfiguration configuration, string dataFolder)
    {
        var settings = configuration.GetSection("Mail").Get<MailSettings>() ?? new();
        settings = settings with
        {
            Folder = settings.Folder.Length > 0 ? settings.Folder : Path.Combine(dataFolder, "mail"),
            Address = (settings.Address.Length > 0 || settings.Host is not null ? settings.Address : Listening(configuration)).TrimEnd('/'),
            Password = settings.PasswordFile is { Length: > 0 } file ? ReadPassword(file) : settings.Password,
        };
        if (settings.Host is null)
            return settings;
        if (!Uri.TryCreate(settings.Address, UriKind.Absolute, out var address) || address.Scheme is not ("https" or "http"))
            throw new StartupFailure("Mail can't be sent: set Mail__Address to the portal's public address, https://portal.example.org for example; the links in mails begin with it.");
        if (settings.From.EndsWith(".invalid", StringComparison.Ordinal) || !MailboxAddress.TryParse(settings.From, out _))
            throw new StartupFailure("Mail can't be sent: set Mail__From to the e-mail address that mails come from.");
        if (settings.TimeoutSeconds is < 1 or > LongestTimeoutSeconds)
            throw new StartupFailure($"Mail can't be sent: Mail__TimeoutSeconds is from 1 to {LongestTimeoutSeconds}; leave it out for 20.");
        return settings;
    }

    private static string Listening(IConfiguration configuration) => configuration["urls"]?.Split(';')[0] is { Length: > 0 } first ? first : "http://localhost:5000";

    private static string ReadPassword(string file)
    {
        try
        {
            return File.ReadAllText(file).Trim();
        }
        catch (Exception unread) when (unread is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure("Mail can't be sent: the file that Mail__PasswordFile names can't be read.", unread);
        }
    }
}
