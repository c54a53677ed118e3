using System.Text;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using MimeKit;
using TeamCircle.Core.Mail;

namespace TeamCircle.Web.Mail;

/// <summary>A mail in the form in which it travels: the same words as plain text and as HTML that loads nothing from anywhere.</summary>
internal static class MimeMail
{
    private const string Style = """
        body{margin:0;padding:24px 16px;background:#f4f6f3;color:#16211f;font:17px/1.5 "Atkinson Hyperlegible Next",system-ui,sans-serif}
        main{max-width:34rem;margin:0 auto}
        h1{font-size:1.35rem;line-height:1.25;margin:0 0 1rem}
        p{margin:0 0 .75rem}
        a{color:#16211f}
        .go a{display:inline-block;border:2px solid #16211f;padding:.6rem 1.1rem;font-weight:600;text-decoration:none}
        footer{border-top:1px solid #6b7a75;margin-top:1.75rem;padding-top:.75rem;font-size:.9rem}
        @media (prefers-color-scheme:dark){body{background:#121a18;color:#e6ebe8}a{color:#e6ebe8}.go a{border-color:#e6ebe8}}
        """;

    public static MimeMessage Of(ReadyMail mail, MailSettings settings, DateTimeOffset now)
    {
        var message = new MimeMessage { MessageId = mail.MessageId, Date = now, Subject = OneLine(mail.Text.Subject) };
        message.From.Add(new MailboxAddress(OneLine(mail.Agency), settings.From));
        message.To.Add(new MailboxAddress(null, OneLine(mail.To)));
        message.Headers.Add("Auto-Submitted", "auto-generated"); // RFC 3834: no holiday answers, please
        message.Headers.Add(HeaderId.ContentLanguage, mail.Text.Language);
        var stop = mail.UnsubscribeKey is { } key && mail.Text.Unsubscribe is not null ? $"{settings.Address}/unsubscribe/{key}" : null;
        if (stop is not null)
        {
            message.Headers.Add(HeaderId.ListUnsubscribe, $"<{stop}>");
            message.Headers.Add(HeaderId.ListUnsubscribePost, "List-Unsubscribe=One-Click"); // RFC 8058
        }
        var link = settings.Address + mail.Text.Path;
        message.Body = new MultipartAlternative(
            new TextPart("plain") { Text = Plain(mail.Text, link, stop) },
            new TextPart("html") { Text = Html(mail.Text, link, stop) });
        message.Prepare(EncodingConstraint.SevenBit);
        return message;
    }

    /// <summary>Whatever stands in a header is one line: an agency's name can't begin another header.</summary>
    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c)).Trim();

    private static string Plain(MailText text, string link, string? stop)
    {
        var plain = new StringBuilder();
        foreach (var line in text.Lines)
            plain.Append(line).Append("\r\n\r\n");
        plain.Append(text.Link).Append(":\r\n").Append(link).Append("\r\n\r\n-- \r\n").Append(text.Why).Append("\r\n");
        if (stop is not null)
            plain.Append(text.Unsubscribe).Append(":\r\n").Append(stop).Append("\r\n");
        return plain.ToString();
    }

    private static string Html(MailText text, string link, string? stop)
    {
        var html = HtmlEncoder.Create(UnicodeRanges.All); // whoever reads the source of a mail reads Spanish, not numbers
        var lines = string.Concat(text.Lines.Select(line => $"<p>{html.Encode(line)}</p>\r\n"));
        var end = stop is null ? "" : $"\r\n<p><a href=\"{html.Encode(stop)}\">{html.Encode(text.Unsubscribe!)}</a></p>";
        return $"""
            <!doctype html>
            <html lang="{text.Language}">
            <head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark"><title>{html.Encode(text.Subject)}</title>
            <style>{Style}</style></head>
            <body><main>
            <h1>{html.Encode(text.Subject)}</h1>
            {lines}<p class="go"><a href="{html.Encode(link)}">{html.Encode(text.Link)}</a></p>
            <footer><p>{html.Encode(text.Why)}</p>{end}</footer>
            </main></body>
            </html>
            """;
    }
}
