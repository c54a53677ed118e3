using TeamCircle.Core.Mail;

namespace TeamCircle.Web.Mail;

/// <summary>Takes a mail on its way: to a mail server, or into a folder where there is none.</summary>
public interface IMailTransport
{
    /// <summary>Where mails go, in a sentence for the administrator.</summary>
    string About { get; }

    /// <summary>What became of it; whatever goes wrong on the way is an answer too.</summary>
    Task<MailAnswer> SendAsync(ReadyMail mail, CancellationToken stop);
}
