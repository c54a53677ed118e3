using System.Collections.Concurrent;
using System.Net.Http.Json;
using System.Text.Json;
using TeamCircle.Data.Devices;
using TeamCircle.Testing.Faults;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>A device's queue as the shell keeps it: an operation leaves it only when an answer has named it as stored or set aside.</summary>
/// <param name="told">Where it tells what came of each; several queues may share it. Null: one of its own.</param>
/// <param name="patience">How long it waits for an answer while something is broken; null: as long as otherwise.</param>
internal sealed class DeviceQueue(string email, Guid device, SentActs? told = null, TimeSpan? patience = null) : IDisposable
{
    /// <summary>On a machine that is busy elsewhere the first answers of a portal took up to 100 seconds.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(5);
    private const int MostUnanswered = 3;
    private HttpClientHandler _cookies = new();
    private readonly ConcurrentQueue<JsonElement> _own = [];
    private HttpClient? _browser;
    private string? _token;

    /// <summary>What is known of all that was sent.</summary>
    public SentActs Acts { get; } = told ?? new();

    public IReadOnlyDictionary<Guid, OperationEnd> Acknowledged => Acts.Acknowledged;

    public IReadOnlySet<Guid> Unknown => Acts.Unknown;

    /// <summary>What came in place of an answer, and how often: a status, or what broke.</summary>
    public ConcurrentDictionary<string, int> InsteadOfAnAnswer { get; } = [];

    public IReadOnlyList<JsonElement> Waiting => [.. _own.Where(o => Acts.IsOpen(SentActs.IdOf(o)))];

    public void Put(params IEnumerable<JsonElement> operations)
    {
        foreach (var operation in operations)
        {
            Acts.Attempt(operation);
            _own.Enqueue(operation);
        }
    }

    /// <summary>Takes over what another queue has put in.</summary>
    public void Take(IEnumerable<JsonElement> operations)
    {
        foreach (var operation in operations)
            _own.Enqueue(operation);
    }

    /// <summary>Turns to a portal that has just started. The sign-in of the one before still holds: it is kept in the database.</summary>
    public async Task TurnToAsync(Uri portal)
    {
        _browser?.Dispose();
        _browser = new HttpClient(_cookies, disposeHandler: false) { BaseAddress = portal, Timeout = Longest };
        if (_token is not null)
            return;
        await _browser.SignInWithCodeAsync(email);
        _token = (await _browser.GetFromJsonAsync<JsonElement>(new Uri("/device/contact", UriKind.Relative))).GetProperty("token").GetString();
    }

    /// <summary>Signs in once more where it is, with nothing kept of the sign-in before.</summary>
    public async Task SignInAnewAsync()
    {
        var portal = _browser!.BaseAddress!;
        _cookies.Dispose();
        (_cookies, _token) = (new(), null);
        await TurnToAsync(portal);
    }

    /// <summary>Opens a page in the browser in which the device's person is signed in.</summary>
    public Task<HttpResponseMessage> OpenAsync(string page, CancellationToken stop) => _browser!.GetAsync(new Uri(page, UriKind.Relative), stop);

    /// <summary>Sends all that waits, as often as it takes.</summary>
    /// <remarks>Where several portals share a database, one that stands may have to wait for what is held at another, and answers 503: a device comes again then.</remarks>
    /// <exception cref="InvalidOperationException">The portal does not answer though it stands.</exception>
    public async Task DrainAsync(CancellationToken stop)
    {
        var (unanswered, sent) = (0, false);
        for (; Waiting is { Count: > 0 } waiting && unanswered < MostUnanswered; unanswered = sent ? 0 : unanswered + 1)
            sent = await SendAsync([.. waiting.Take(50)], CancellationToken.None, stop);
        if (unanswered == MostUnanswered)
            throw new InvalidOperationException($"No answer from a portal that was not disturbed: {string.Join(", ", InsteadOfAnAnswer.Select(i => $"{i.Key} {i.Value} times"))}.");
    }

    /// <summary>Sends everything that it ever held once more.</summary>
    public async Task SendAllAgainAsync(CancellationToken stop)
    {
        foreach (var again in _own.Chunk(50))
            if (!await SendAsync(again, CancellationToken.None, stop))
                throw new InvalidOperationException("No answer from a portal that was not disturbed.");
    }

    /// <summary>Sends at most so many of what waits. False where no answer came.</summary>
    public Task<bool> SendAsync(int most, CancellationToken stop) => SendAsync([.. Waiting.Take(most)], stop);

    /// <summary>Sends these, whether they wait or not. False where no answer came that names them: then nobody knows.</summary>
    public Task<bool> SendAsync(IReadOnlyList<JsonElement> operations, CancellationToken stop) => SendAsync(operations, patience, CancellationToken.None, stop);

    /// <summary>The same, until <paramref name="enough"/> says that it has waited long enough.</summary>
    public Task<bool> SendAsync(IReadOnlyList<JsonElement> operations, CancellationToken enough, CancellationToken stop) => SendAsync(operations, null, enough, stop);

    private async Task<bool> SendAsync(IReadOnlyList<JsonElement> operations, TimeSpan? wait, CancellationToken enough, CancellationToken stop)
    {
        using var gaveUp = CancellationTokenSource.CreateLinkedTokenSource(stop, enough);
        gaveUp.CancelAfter(wait ?? Timeout.InfiniteTimeSpan);
        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/device/operations") { Content = JsonContent.Create(new { device, operations }) };
            request.Headers.Add("RequestVerificationToken", _token);
            using var answer = await _browser!.SendAsync(request, gaveUp.Token);
            Acts.Hear((await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonElement>(gaveUp.Token)).GetProperty("answers"));
            return true;
        }
        catch (Exception lost) when (lost is HttpRequestException or IOException or JsonException || lost is OperationCanceledException && !stop.IsCancellationRequested)
        {
            InsteadOfAnAnswer.AddOrUpdate((lost as HttpRequestException)?.StatusCode is { } status ? $"{(int)status}" : lost.GetType().Name, 1, (_, before) => before + 1);
            Acts.Lose(operations);
            return false;
        }
    }

    public void Dispose()
    {
        _browser?.Dispose();
        _cookies.Dispose();
    }
}
