using Microsoft.Extensions.Configuration;
using TeamCircle.Data;
using TeamCircle.Web.Mail;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>What a mail server needs is asked for before the portal starts, each in one line that says what to set.</summary>
public sealed class MailSettingsTests
{
    [Theory]
    [InlineData("Mail:Address", "portal", "Mail__Address")]
    [InlineData("Mail:From", "portal@teamcircle.invalid", "Mail__From")]
    [InlineData("Mail:TimeoutSeconds", "46", "Mail__TimeoutSeconds is from 1 to 45")]
    [InlineData("Mail:TimeoutSeconds", "45", null)]
    public void Setting_that_a_mail_server_cannot_work_with_is_refused_by_name(string name, string value, string? refused)
    {
        var settings = new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?>
        {
            ["Mail:Host"] = "mail.tallowfern.example",
            ["Mail:Address"] = "https://portal.tallowfern.example",
            ["Mail:From"] = "portal@tallowfern.example",
            [name] = value,
        }).Build();

        var failure = Record.Exception(() => MailSettings.Read(settings, "data"));

        if (refused is null)
            Assert.Null(failure);
        else
            Assert.Contains(refused, Assert.IsType<StartupFailure>(failure).Message, StringComparison.Ordinal);
    }
}
