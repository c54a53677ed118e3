using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using SmtpServer.Protocol;
using TeamCircle.Core.Mail;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;
using TeamCircle.Web.Mail;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>The way to a real mail server: what arrives, and what is said where it refuses, stalls, breaks off or cannot be trusted.</summary>
public sealed class SmtpTransportTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 10, 2, 16, 0, 0, TimeSpan.Zero);
    private static readonly ReadyMail Summary = new(
        "0199aa@teamcircle.invalid", "ines@family.example", "Tallowfern Education Cooperative", MailTexts.NewSummary(MailLanguage.Spanish), "TAIL");

    private readonly FakeTimeProvider _clock = new(Now);
    private readonly string _folder = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Task<MailAnswer> SendAsync(int port, ReadyMail? mail = null, MailSecurity security = MailSecurity.None, string? authority = null) =>
        new SmtpTransport(Settings(port, security, authority), _clock).SendAsync(mail ?? Summary, Stop);

    private static MailSettings Settings(int port, MailSecurity security, string? authority) => new()
    {
        Host = "localhost",
        Port = port,
        Security = security,
        Authority = authority,
        From = "portal@tallowfern.example",
        Address = "https://portal.tallowfern.example",
    };

    [Fact]
    public async Task Mail_arrives_encrypted_and_another_parser_reads_the_same_words_from_it()
    {
        var authority = TestAuthority.Make(_folder);
        await using var server = await MailServer.StartAsync(authority.Certificate);

        var answer = await SendAsync(server.Port, security: MailSecurity.StartTls, authority: authority.File);

        Assert.Equal(MailOutcome.Accepted, answer.Outcome);
        var raw = Assert.Single(server.Taken);
        Assert.All(raw.Split("\r\n"), line => Assert.True(line.Length <= 998 && line.All(char.IsAscii), line));
        var mail = Assert.Single(await ReadMime.AllAsync([raw]));
        Assert.Equal(("Hay un nuevo resumen", "<0199aa@teamcircle.invalid>"), (mail.Subject, mail.MessageId));
        Assert.Equal(("Tallowfern Education Cooperative", "portal@tallowfern.example"), (mail.From.Name, mail.From.Address));
        Assert.Equal(("", "ines@family.example"), (Assert.Single(mail.To).Name, mail.To[0].Address));
        Assert.Equal(["<https://portal.tallowfern.example/unsubscribe/TAIL>"], mail.Header("list-unsubscribe"));
        Assert.Equal(["List-Unsubscribe=One-Click"], mail.Header("list-unsubscribe-post"));
        Assert.Equal(["es"], mail.Header("content-language"));
        foreach (var words in new[] { mail.Text, mail.Html })
            Assert.Contains("Inicie sesión para verlo.", words, StringComparison.Ordinal);
        Assert.Contains("https://portal.tallowfern.example/unsubscribe/TAIL", mail.Text, StringComparison.Ordinal);
        foreach (var remote in new[] { "src=", "url(", "@import", "<script", "<img", " style=" })
            Assert.DoesNotContain(remote, mail.Html, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("Tallowfern\r\nBcc: thief@elsewhere.example", "ines@family.example")]
    [InlineData("Tallowfern\nSubject: other\n\nbody", "ines@family.example")]
    [InlineData("Tallowfern", "ines@family.example\r\nBcc: thief@elsewhere.example")]
    public async Task Line_breaks_in_names_and_addresses_begin_no_header(string agency, string to)
    {
        await using var server = await MailServer.StartAsync();

        await SendAsync(server.Port, Summary with { Agency = agency, To = to });

        foreach (var mail in await ReadMime.AllAsync(server.Taken))
        {
            Assert.Equal("Hay un nuevo resumen", mail.Subject);
            Assert.Null(mail.Bcc);
            Assert.Null(mail.Cc);
            Assert.Equal("portal@tallowfern.example", mail.From.Address);
            Assert.Single(mail.Headers, h => h.Key == "subject");
        }
    }

    [Fact]
    public async Task Nothing_is_sent_to_a_server_without_encryption_or_with_a_certificate_that_nobody_trusts()
    {
        await using var untrusted = await MailServer.StartAsync(TestAuthority.Make(_folder).Certificate);
        await using var plain = await MailServer.StartAsync();

        var answers = new[] { await SendAsync(untrusted.Port, security: MailSecurity.StartTls), await SendAsync(plain.Port, security: MailSecurity.StartTls) };

        Assert.All(answers, a => Assert.Equal(MailOutcome.Later, a.Outcome));
        Assert.Contains("certificate is not trusted", answers[0].Words, StringComparison.Ordinal);
        Assert.Contains("offers no encryption", answers[1].Words, StringComparison.Ordinal);
        Assert.Empty(untrusted.Taken.Concat(plain.Taken));
    }

    [Theory]
    [InlineData(550, "no mailbox ines@family.example here", MailOutcome.Refused, "The mail server refused it (550): no mailbox (address) here")]
    [InlineData(451, "come back later", MailOutcome.Later, "The mail server can't take it now (451): come back later")]
    public async Task Refusal_is_for_good_or_for_now_and_its_words_hold_no_address(int code, string said, MailOutcome outcome, string words)
    {
        await using var server = await MailServer.StartAsync();
        server.Answer = new SmtpResponse((SmtpReplyCode)code, said);

        Assert.Equal(new(outcome, words), await SendAsync(server.Port));
    }

    [Fact]
    public async Task Server_that_keeps_its_answer_is_given_up_after_the_time_allowed()
    {
        await using var server = await MailServer.StartAsync();
        var reached = new TaskCompletionSource();
        var never = new TaskCompletionSource();
        server.AtAnswer = () =>
        {
            reached.TrySetResult();
            return never.Task;
        };
        var sending = SendAsync(server.Port);
        await reached.Task;
        _clock.Advance(TimeSpan.FromSeconds(19));
        Assert.False(sending.IsCompleted);
        _clock.Advance(TimeSpan.FromSeconds(1));

        Assert.Equal(new(MailOutcome.Later, "The mail server did not answer within 20 seconds."), await sending);
        never.SetResult();
    }

    [Fact]
    public async Task Connection_that_breaks_in_the_middle_of_a_mail_leaves_nothing_there_and_is_tried_again()
    {
        await using var server = await MailServer.StartAsync();
        using var wire = new TcpListener(IPAddress.Loopback, 0);
        wire.Start();
        var cutting = CutAsync(wire, server.Port);

        var answer = await SendAsync(((IPEndPoint)wire.LocalEndpoint).Port);
        await cutting;

        Assert.Equal(new(MailOutcome.Later, "The mail server broke off in the middle."), answer);
        Assert.Empty(server.Taken);
    }

    /// <summary>Passes everything on until the mail itself has begun, and then cuts the wire.</summary>
    private static async Task CutAsync(TcpListener wire, int to)
    {
        using var client = await wire.AcceptTcpClientAsync(Stop);
        using var server = new TcpClient();
        await server.ConnectAsync(IPAddress.Loopback, to, Stop);
        var answers = server.GetStream().CopyToAsync(client.GetStream(), Stop);
        var buffer = new byte[64];
        var passed = new StringBuilder();
        while (!passed.ToString().Contains("Message-Id", StringComparison.OrdinalIgnoreCase) && await client.GetStream().ReadAsync(buffer, Stop) is > 0 and var read)
        {
            await server.GetStream().WriteAsync(buffer.AsMemory(0, read), Stop);
            passed.Append(Encoding.ASCII.GetString(buffer, 0, read));
        }
        client.Client.Close(0);
        server.Client.Close(0);
        await answers.ContinueWith(_ => { }, TaskScheduler.Default); // however that ended
    }
}
