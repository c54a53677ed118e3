using System.Globalization;
using TeamCircle.Core.Mail;

namespace TeamCircle.Web.Mail;

/// <summary>Keeps mails as files that any mail program opens, where no mail server is set. They go to nobody.</summary>
internal sealed class FolderTransport(MailSettings settings, TimeProvider clock) : IMailTransport
{
    public string About => $"No mail server is set. Mails are kept as .eml files in the folder {settings.Folder} and go to nobody.";

    public async Task<MailAnswer> SendAsync(ReadyMail mail, CancellationToken stop)
    {
        try
        {
            Directory.CreateDirectory(settings.Folder);
            var name = $"{clock.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture)}-{mail.MessageId.Split('@')[0]}.eml";
            using var message = MimeMail.Of(mail, settings, clock.GetUtcNow());
            await message.WriteToAsync(Path.Combine(settings.Folder, name), stop);
            return new(MailOutcome.Accepted, "Kept in the folder; no mail server is set.");
        }
        catch (Exception unwritten) when (unwritten is IOException or UnauthorizedAccessException)
        {
            return new(MailOutcome.Later, "The folder could not be written.");
        }
    }
}
