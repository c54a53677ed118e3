using System.Collections.Concurrent;
using System.Net.Http.Json;
using System.Text.Json;
using TeamCircle.Testing.Faults;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>A device's queue as the shell keeps it: an operation leaves it only when an answer has named it as stored or set aside.</summary>
/// <param name="acts">Where it tells what came of each; several queues may share it.</param>
/// <param name="patience">How long it waits for an answer; null as long as the network lets it.</param>
internal sealed class DeviceQueue(string email, Guid device, SentActs acts, TimeSpan? patience = null) : IDisposable
{
    private readonly HttpClientHandler _cookies = new();
    private readonly ConcurrentQueue<JsonElement> _own = [];
    private HttpClient? _browser;
    private string? _token;

    public IReadOnlyList<JsonElement> All => [.. _own];

    public IReadOnlyList<JsonElement> Waiting => [.. _own.Where(o => acts.IsOpen(SentActs.IdOf(o)))];

    public void Put(params IEnumerable<JsonElement> operations)
    {
        foreach (var operation in operations)
        {
            acts.Attempt(operation);
            _own.Enqueue(operation);
        }
    }

    /// <summary>Turns to a portal that has just started. The sign-in of the one before still holds: it is kept in the database.</summary>
    public async Task TurnToAsync(Uri portal)
    {
        _browser?.Dispose();
        _browser = new HttpClient(_cookies, disposeHandler: false) { BaseAddress = portal, Timeout = patience ?? TimeSpan.FromSeconds(100) };
        if (_token is not null)
            return;
        (await _browser.SignInAsync(email)).EnsureSuccessStatusCode();
        _token = (await _browser.GetFromJsonAsync<JsonElement>(new Uri("/device/contact", UriKind.Relative))).GetProperty("token").GetString();
    }

    /// <summary>Sends all that waits, as often as it takes.</summary>
    /// <exception cref="InvalidOperationException">The portal does not answer though it stands.</exception>
    public async Task DrainAsync(CancellationToken stop)
    {
        while (Waiting is { Count: > 0 } waiting)
            if (!await SendAsync([.. waiting.Take(50)], stop))
                throw new InvalidOperationException("No answer from a portal that was not disturbed.");
    }

    /// <summary>Sends everything that it ever held once more.</summary>
    public async Task SendAllAgainAsync(CancellationToken stop)
    {
        foreach (var again in _own.Chunk(50))
            if (!await SendAsync(again, stop))
                throw new InvalidOperationException("No answer from a portal that was not disturbed.");
    }

    /// <summary>Sends these, whether they wait or not. False where no answer came that names them: then nobody knows.</summary>
    public async Task<bool> SendAsync(IReadOnlyList<JsonElement> operations, CancellationToken stop)
    {
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/device/operations") { Content = JsonContent.Create(new { device, operations }) };
            request.Headers.Add("RequestVerificationToken", _token);
            using var answer = await _browser!.SendAsync(request, stop);
            acts.Hear((await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonElement>(stop)).GetProperty("answers"));
            return true;
        }
        catch (Exception lost) when (lost is HttpRequestException or IOException or JsonException || lost is OperationCanceledException && !stop.IsCancellationRequested)
        {
            acts.Lose(operations);
            return false;
        }
    }

    public void Dispose()
    {
        _browser?.Dispose();
        _cookies.Dispose();
    }
}
