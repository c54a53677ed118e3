using System.Buffers.Text;
using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace TeamCircle.Web.Tests.Access;

/// <summary>
/// A small OpenID Connect provider: describes itself, takes a code once with its PKCE verifier and the client's secret, and signs real tokens
/// with a key of its own. The portal reaches it as an HTTP handler in place of the network.
/// </summary>
public sealed class SmallProvider : HttpMessageHandler
{
    public const string ClientId = "teamcircle", ClientSecret = "the secret of the client";

    private readonly RSA _key = RSA.Create(2048), _forgersKey = RSA.Create(2048);
    private readonly ConcurrentDictionary<string, (string Challenge, Answer Answer)> _codes = new();

    public SmallProvider(string issuer) => Issuer = issuer;

    public string Issuer { get; }

    /// <summary>What it will say of somebody; what a test swaps differs from what the portal asked for.</summary>
    public sealed record Answer(string Issuer, string Subject, string Audience, string? Nonce, string? Amr = null, bool IsForged = false);

    /// <summary>Where the provider sends a browser back to, having signed somebody in.</summary>
    /// <param name="asked">Where the portal sent the browser.</param>
    /// <param name="swap">Changes what it says.</param>
    public Uri SignIn(Uri asked, string subject, Func<Answer, Answer>? swap = null, string? amr = null)
    {
        var query = QueryHelpers.ParseQuery(asked.Query);
        Assert.Equal(("code", "S256", "openid", ClientId), ($"{query["response_type"]}", $"{query["code_challenge_method"]}", $"{query["scope"]}", $"{query["client_id"]}"));
        var answer = new Answer(Issuer, subject, ClientId, query["nonce"], amr);
        var code = Convert.ToHexString(RandomNumberGenerator.GetBytes(16));
        _codes[code] = (query["code_challenge"]!, swap?.Invoke(answer) ?? answer);
        return new Uri(QueryHelpers.AddQueryString(query["redirect_uri"]!, new Dictionary<string, string?> { ["code"] = code, ["state"] = query["state"] }));
    }

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) => request.RequestUri!.AbsolutePath switch
    {
        "/.well-known/openid-configuration" => Json(new
        {
            issuer = Issuer,
            authorization_endpoint = Issuer + "/authorize",
            token_endpoint = Issuer + "/token",
            jwks_uri = Issuer + "/keys",
        }),
        "/keys" => Json(new { keys = new[] { new { kty = "RSA", use = "sig", kid = "1", n = Part(_key.ExportParameters(false).Modulus!), e = Part(_key.ExportParameters(false).Exponent!) } } }),
        "/token" => Token(QueryHelpers.ParseQuery(await request.Content!.ReadAsStringAsync(cancellationToken))),
        _ => new HttpResponseMessage(HttpStatusCode.NotFound),
    };

    private HttpResponseMessage Token(Dictionary<string, Microsoft.Extensions.Primitives.StringValues> form)
    {
        if (form["client_secret"] != ClientSecret || !_codes.TryRemove($"{form["code"]}", out var given)
            || Part(SHA256.HashData(Encoding.ASCII.GetBytes($"{form["code_verifier"]}"))) != given.Challenge)
            return new HttpResponseMessage(HttpStatusCode.BadRequest) { Content = JsonContent.Create(new { error = "invalid_grant" }) };
        return Json(new { access_token = "unused", token_type = "Bearer", id_token = Sign(given.Answer) });
    }

    private string Sign(Answer answer)
    {
        var claims = new Dictionary<string, object> { ["sub"] = answer.Subject, ["email"] = "odalys@tallowfern.example" }; // an address that is somebody's here
        if (answer.Nonce is not null)
            claims["nonce"] = answer.Nonce;
        if (answer.Amr is not null)
            claims["amr"] = new[] { "pwd", answer.Amr };
        var key = new RsaSecurityKey(answer.IsForged ? _forgersKey : _key) { KeyId = "1" };
        return new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = answer.Issuer,
            Audience = answer.Audience,
            Claims = claims,
            Expires = TimeProvider.System.GetUtcNow().UtcDateTime.AddMinutes(5),
            SigningCredentials = new SigningCredentials(key, SecurityAlgorithms.RsaSha256),
        });
    }

    private static string Part(byte[] bytes) => Base64Url.EncodeToString(bytes);

    private static HttpResponseMessage Json(object value) => new(HttpStatusCode.OK) { Content = JsonContent.Create(value) };

    protected override void Dispose(bool disposing)
    {
        _key.Dispose();
        _forgersKey.Dispose();
        base.Dispose(disposing);
    }
}
