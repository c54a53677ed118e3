using System.Net;
using System.Text.RegularExpressions;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>One browser of one signed-in person, with a connection of its own.</summary>
internal sealed partial class LoadVisitor : IDisposable
{
    private readonly HttpClient _client;

    private LoadVisitor(LoadPerson person, Uri site)
    {
        Person = person;
        _client = new(new SocketsHttpHandler { MaxConnectionsPerServer = 1, AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = site, Timeout = TimeSpan.FromMinutes(2) };
    }

    public LoadPerson Person { get; }

    /// <exception cref="InvalidOperationException">The portal does not let them in.</exception>
    public static async Task<LoadVisitor> SignInAsync(LoadPerson person, Uri site)
    {
        var visitor = new LoadVisitor(person, site);
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

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex TokenField();

    [GeneratedRegex("<input type=\"hidden\"[^>]*name=\"([^\"]+)\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex HiddenField();

    public void Dispose() => _client.Dispose();
}
