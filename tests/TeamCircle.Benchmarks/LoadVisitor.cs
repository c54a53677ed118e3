using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>One browser of one signed-in person, with a connection of its own.</summary>
internal sealed partial class LoadVisitor : IDisposable
{
    private readonly HttpClient _client;
    private string _token = "";

    private LoadVisitor(LoadPerson person, Uri site, int connections)
    {
        Person = person;
        _client = new(new SocketsHttpHandler { MaxConnectionsPerServer = connections, AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = site, Timeout = TimeSpan.FromMinutes(2) };
    }

    public LoadPerson Person { get; }

    /// <param name="connections">How many requests of theirs may be under way at once.</param>
    /// <exception cref="InvalidOperationException">The portal does not let them in.</exception>
    public static async Task<LoadVisitor> SignInAsync(LoadPerson person, Uri site, int connections = 1)
    {
        var visitor = new LoadVisitor(person, site, connections);
        using var answer = await visitor.SendFormAsync("/sign-in", new() { ["Input.Email"] = person.Email, ["Input.Password"] = CreateDemonstrationAccounts.Passphrase });
        return answer.StatusCode is HttpStatusCode.Redirect ? visitor : throw new InvalidOperationException($"{person.Email} was not let in: {(int)answer.StatusCode}.");
    }

    /// <summary>Fills in a form as a browser does: with what its page hid in it.</summary>
    private async Task<HttpResponseMessage> SendFormAsync(string path, Dictionary<string, string> fields)
    {
        var page = await _client.GetStringAsync(new Uri(path, UriKind.Relative));
        foreach (Match hidden in HiddenField().Matches(page))
            fields.TryAdd(hidden.Groups[1].Value, WebUtility.HtmlDecode(hidden.Groups[2].Value));
        fields["__RequestVerificationToken"] = TokenField().Match(page).Groups[1].Value;
        using var form = new FormUrlEncodedContent(fields);
        return await _client.PostAsync(new Uri(path, UriKind.Relative), form);
    }

    /// <exception cref="InvalidOperationException">It did not open.</exception>
    public async Task<byte[]> ReadAsync(string path, string? recordedAs = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (recordedAs is not null)
            request.Headers.Add(SentRecorder.Header, recordedAs);
        using var answer = await _client.SendAsync(request);
        var body = await answer.Content.ReadAsByteArrayAsync();
        return answer.StatusCode is HttpStatusCode.OK ? body : throw new InvalidOperationException($"{path} answered {(int)answer.StatusCode} to {Person.Email}.");
    }

    /// <summary>Asks what every form of theirs has to bring along.</summary>
    public async Task ContactAsync() =>
        _token = (await _client.GetFromJsonAsync<JsonElement>(new Uri("/device/contact", UriKind.Relative))).GetProperty("token").GetString()!;

    /// <summary>Logs a visit by its form; after <see cref="ContactAsync"/>.</summary>
    /// <returns>Whether the portal said that it is saved.</returns>
    public async Task<bool> LogAsync(WaitingVisit visit)
    {
        var fields = visit.Fields();
        fields["__RequestVerificationToken"] = _token;
        using var form = new FormUrlEncodedContent(fields);
        using var answer = await _client.PostAsync(new Uri($"/visits/{visit.Id}/log", UriKind.Relative), form);
        return answer.StatusCode is HttpStatusCode.Redirect;
    }

    /// <summary>Makes this browser a device of theirs.</summary>
    public async Task<Guid> EnrolAsync() => (await AskAsync("/device/enrol", new { name = "Tablet" })).GetProperty("device").GetGuid();

    public Task<JsonElement> SendAsync(Guid device, IReadOnlyList<JsonElement> operations) => AskAsync("/device/operations", new { device, operations });

    private async Task<JsonElement> AskAsync(string path, object what)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(path, UriKind.Relative)) { Content = JsonContent.Create(what) };
        request.Headers.Add("RequestVerificationToken", _token);
        using var answer = await _client.SendAsync(request);
        return await answer.EnsureSuccessStatusCode().Content.ReadFromJsonAsync<JsonElement>();
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex TokenField();

    [GeneratedRegex("<input type=\"hidden\"[^>]*name=\"([^\"]+)\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex HiddenField();

    public void Dispose() => _client.Dispose();
}
