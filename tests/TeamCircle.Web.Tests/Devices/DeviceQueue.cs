using System.Net.Http.Json;
using System.Text.Json;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Tests.Access;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>A device's queue as the shell keeps it: an operation leaves it only when an answer has named it as stored or set aside.</summary>
internal sealed class DeviceQueue(string email, Guid device) : IDisposable
{
    private readonly HttpClientHandler _cookies = new();
    private HttpClient? _browser;

    /// <summary>All that was ever put into it, as it was sent.</summary>
    public Dictionary<Guid, JsonElement> Attempted { get; } = [];

    /// <summary>Acknowledged, and as what.</summary>
    public Dictionary<Guid, OperationEnd> Acknowledged { get; } = [];

    public HashSet<Guid> Refused { get; } = [];

    /// <summary>Sent in a request that was never answered.</summary>
    public HashSet<Guid> Unknown { get; } = [];

    public IReadOnlyList<JsonElement> Waiting => [.. Attempted.Where(o => !Acknowledged.ContainsKey(o.Key) && !Refused.Contains(o.Key)).Select(o => o.Value)];

    public void Put(params IEnumerable<JsonElement> operations)
    {
        foreach (var operation in operations)
            Attempted.Add(operation.GetProperty("id").GetGuid(), operation);
    }

    /// <summary>Turns to a portal that has just started. The sign-in of the one before still holds: it is kept in the database.</summary>
    public async Task TurnToAsync(Uri portal)
    {
        var isFirst = _browser is null;
        _browser?.Dispose();
        _browser = new HttpClient(_cookies, disposeHandler: false) { BaseAddress = portal };
        if (isFirst)
            (await _browser.SignInAsync(email)).EnsureSuccessStatusCode();
    }

    /// <summary>Sends at most so many of what waits. False where no answer came.</summary>
    public async Task<bool> SendAsync(int most, CancellationToken stop) => await SendAsync([.. Waiting.Take(most)], stop);

    /// <summary>Sends these, whether they wait or not.</summary>
    public async Task<bool> SendAsync(IReadOnlyList<JsonElement> operations, CancellationToken stop)
    {
        try
        {
            var contact = await _browser!.GetFromJsonAsync<JsonElement>(new Uri("/device/contact", UriKind.Relative), stop);
            using var request = new HttpRequestMessage(HttpMethod.Post, "/device/operations") { Content = JsonContent.Create(new { device, operations }) };
            request.Headers.Add("RequestVerificationToken", contact.GetProperty("token").GetString());
            using var answer = await _browser!.SendAsync(request, stop);
            Hear((await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonElement>(stop)).GetProperty("answers"));
            return true;
        }
        catch (HttpRequestException)
        {
            Unknown.UnionWith(operations.Select(o => o.GetProperty("id").GetGuid()));
            return false;
        }
    }

    private void Hear(JsonElement answers)
    {
        foreach (var answer in answers.EnumerateArray())
        {
            var (id, end) = (answer.GetProperty("id").GetGuid(), answer.GetProperty("end").Deserialize<OperationEnd>(DeviceJson.Options));
            if (end == OperationEnd.Refused)
                Refused.Add(id);
            else if (!Acknowledged.TryAdd(id, end) && Acknowledged[id] != end)
                throw new InvalidOperationException($"{id} was {Acknowledged[id]}, and a repeat says {end}.");
        }
    }

    public void Dispose()
    {
        _browser?.Dispose();
        _cookies.Dispose();
    }
}
