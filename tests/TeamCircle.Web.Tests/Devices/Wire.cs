using System.Net;
using System.Net.Sockets;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>What a network does to one request and its answer.</summary>
public enum Trouble
{
    /// <summary>The request is lost on its way.</summary>
    RequestLost,

    /// <summary>Half of it arrives, and then the connection breaks.</summary>
    RequestCut,

    /// <summary>It arrives, and the connection breaks while the portal works.</summary>
    HungUp,

    /// <summary>It arrives, and the answer is lost.</summary>
    ReplyLost,

    /// <summary>It arrives twice at once, over two connections.</summary>
    Twice,

    /// <summary>It arrives when the sender has long given up and sent again another way.</summary>
    Late,
}

/// <summary>A network between a device and a portal, on this machine, that does one thing wrong with each connection.</summary>
internal sealed class Wire : IDisposable
{
    /// <summary>How the last piece of a chunked request ends; RFC 9112, section 7.1.</summary>
    private static readonly byte[] End = "\r\n0\r\n\r\n"u8.ToArray();
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Uri _portal;
    private readonly Trouble _trouble;
    private readonly TaskCompletionSource _late = new();
    private readonly Task _running;

    /// <param name="trouble">What it does to the first connection; there is no second.</param>
    public Wire(Uri portal, Trouble trouble)
    {
        (_portal, _trouble) = (portal, trouble);
        _listener.Start();
        _running = RunAsync();
    }

    public Uri Address => new($"http://{_listener.LocalEndpoint}");

    /// <summary>Lets what is late arrive, and waits until the portal has answered whatever came.</summary>
    public async Task FinishAsync()
    {
        _late.TrySetResult();
        await _running.WaitAsync(TimeSpan.FromSeconds(60));
    }

    private async Task RunAsync()
    {
        using var device = await _listener.AcceptTcpClientAsync();
        var request = await ReadRequestAsync(device.GetStream());
        switch (_trouble)
        {
            case Trouble.RequestLost:
                break;
            case Trouble.RequestCut:
                using (var cut = await SendAsync(request.AsMemory(0, request.Length / 2)))
                    Break(cut);
                break;
            case Trouble.HungUp:
                using (var hungUp = await SendAsync(request))
                    Break(hungUp);
                break;
            case Trouble.ReplyLost:
                using (var silent = await SendAsync(request))
                    await ReadReplyAsync(silent);
                break;
            case Trouble.Twice:
                using (var first = await SendAsync(request))
                using (var second = await SendAsync(request))
                {
                    var replies = await Task.WhenAll(ReadReplyAsync(first), ReadReplyAsync(second));
                    await device.GetStream().WriteAsync(replies[0]);
                }
                return;
            case Trouble.Late:
                await _late.Task;
                using (var late = await SendAsync(request))
                    await ReadReplyAsync(late);
                return;
        }
        Break(device);
    }

    private async Task<TcpClient> SendAsync(ReadOnlyMemory<byte> request)
    {
        var portal = new TcpClient();
        await portal.ConnectAsync(_portal.Host, _portal.Port);
        await portal.GetStream().WriteAsync(request);
        return portal;
    }

    private static async Task<byte[]> ReadRequestAsync(NetworkStream device)
    {
        var (read, buffer) = (new MemoryStream(), new byte[16 * 1024]);
        while (!read.ToArray().AsSpan().EndsWith(End) && await device.ReadAsync(buffer) is > 0 and var some)
            read.Write(buffer, 0, some);
        return read.ToArray();
    }

    /// <summary>The whole answer, whose last piece ends like a request's; the connection stays open behind it.</summary>
    private static Task<byte[]> ReadReplyAsync(TcpClient portal) => ReadRequestAsync(portal.GetStream());

    /// <summary>Ends it without a farewell, so that the other side sees a broken connection.</summary>
    private static void Break(TcpClient connection)
    {
        connection.LingerState = new LingerOption(true, 0);
        connection.Close();
    }

    public void Dispose() => _listener.Dispose();
}
