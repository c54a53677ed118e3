using TeamCircle.Data;

namespace TeamCircle.Web.Mail;

internal static class MailSetUp
{
    /// <summary>Chooses the way that mails take, from the settings.</summary>
    public static void AddMail(this WebApplicationBuilder builder)
    {
        var settings = MailSettings.Read(builder.Configuration, PortalFolders.From(builder.Environment.ContentRootPath).Data);
        builder.Services.AddSingleton(settings);
        if (settings.Host is null)
            builder.Services.AddSingleton<IMailTransport, FolderTransport>();
        else
            builder.Services.AddSingleton<IMailTransport, SmtpTransport>();
    }
}
