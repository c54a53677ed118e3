using System.Buffers;
using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography.X509Certificates;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Net;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace TeamCircle.Web.Tests.Mail;

/// <summary>A real mail server on this machine that takes, refuses, or keeps its answer back, as a test says.</summary>
internal sealed class MailServer : IAsyncDisposable
{
    private readonly ConcurrentQueue<string> _taken = new();
    private readonly CancellationTokenSource _stop = new();
    private Task _running = Task.CompletedTask;

    private MailServer()
    {
    }

    public int Port { get; private set; }

    /// <summary>What it has taken whole, as it came, whether or not it could still say so.</summary>
    public IReadOnlyList<string> Taken => [.. _taken];

    /// <summary>What it says to a mail that it has whole.</summary>
    public SmtpResponse Answer { get; set; } = SmtpResponse.Ok;

    /// <summary>Awaited when a recipient is named, and when a mail is there whole, before the answer.</summary>
    public Func<Task> AtRecipient { get; set; } = () => Task.CompletedTask;

    public Func<Task> AtAnswer { get; set; } = () => Task.CompletedTask;

    /// <param name="certificate">With it the server offers STARTTLS.</param>
    public static async Task<MailServer> StartAsync(X509Certificate2? certificate = null)
    {
        var server = new MailServer();
        var started = new TaskCompletionSource<int>();
        var listening = new EndpointListenerFactory();
        listening.EndpointStarted += (_, e) => started.TrySetResult(((IPEndPoint)e.LocalEndPoint).Port);
        var services = new ServiceProvider();
        services.Add(listening);
        services.Add(new Store(server));
        services.Add((IMailboxFilter)new Filter(server));
        var options = new SmtpServerOptionsBuilder().ServerName("localhost").Endpoint(e =>
        {
            e.Endpoint(new IPEndPoint(IPAddress.Loopback, 0));
            if (certificate is not null)
                e.Certificate(certificate);
        }).Build();
        server._running = new SmtpServer.SmtpServer(options, services).StartAsync(server._stop.Token);
        server.Port = await started.Task.WaitAsync(TimeSpan.FromSeconds(20));
        return server;
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        try
        {
            await _running;
        }
        catch (OperationCanceledException)
        {
        }
        _stop.Dispose();
    }

    private sealed class Store(MailServer server) : MessageStore
    {
        public override async Task<SmtpResponse> SaveAsync(ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            var mail = System.Text.Encoding.Latin1.GetString(buffer.ToArray());
            if (server.Answer == SmtpResponse.Ok)
                server._taken.Enqueue(mail);
            await server.AtAnswer();
            return server.Answer;
        }
    }

    private sealed class Filter(MailServer server) : MailboxFilter
    {
        public override async Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancellationToken)
        {
            await server.AtRecipient();
            return true;
        }
    }
}
