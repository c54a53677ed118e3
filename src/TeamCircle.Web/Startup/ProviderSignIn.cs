using System.Globalization;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.DataProtection;
using TeamCircle.Core;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>
/// Signing in by an agency's identity provider: OpenID Connect with code and PKCE, checked by the framework's own handler. What comes of it is a
/// sign-in of ours like any other; no token of the provider's is kept.
/// </summary>
internal static class ProviderSignIn
{
    private const string Link = "link", Join = "join";
    private static readonly TimeSpan LinkLasts = TimeSpan.FromMinutes(10);

    public static void AddProviders(this AuthenticationBuilder authentication, IReadOnlyList<IdentityProvider> providers, bool secure)
    {
        foreach (var provider in providers)
            authentication.AddOpenIdConnect(provider.Scheme, o => Set(o, provider, secure));
        authentication.Services.AddSingleton(s => new IdentityProviders(providers, s.GetRequiredService<IServiceScopeFactory>()));
    }

    private static void Set(OpenIdConnectOptions options, IdentityProvider provider, bool secure)
    {
        (options.Authority, options.ClientId, options.ClientSecret) = (provider.Authority, provider.ClientId, provider.ReadSecret());
        options.CallbackPath = $"/sign-in/provider/{provider.Agency.ToLowerInvariant()}/back";
        options.ResponseType = "code";
        options.ResponseMode = "query"; // a form from elsewhere would come without our cookies
        options.UsePkce = true;
        options.MapInboundClaims = false;
        options.ClaimActions.Clear(); // or who issued the token, and how they signed in there, were thrown away
        options.Scope.Clear();
        options.Scope.Add("openid"); // who they are, and nothing about them
        options.SkipUnrecognizedRequests = true;
        foreach (var (cookie, name) in new[] { (options.CorrelationCookie, "way-"), (options.NonceCookie, "once-") })
        {
            cookie.Name = $"{(secure ? "__Host-" : "")}teamcircle-{name}";
            cookie.Path = "/";
            cookie.SameSite = SameSiteMode.Lax;
            cookie.SecurePolicy = secure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
        }
        options.Events.OnTicketReceived = received => ReceiveAsync(received, provider);
        options.Events.OnRemoteFailure = failed => GoTo(failed, "/sign-in?said=refused");
    }

    /// <summary>Proves, to the page that begins the way to the provider, that somebody showed just now who they are and wants to link their account.</summary>
    public static string SealLink(this IDataProtectionProvider protection, long account) =>
        Protector(protection).Protect(account.ToString(CultureInfo.InvariantCulture), LinkLasts);

    /// <param name="link">Of <see cref="SealLink"/>; null where nobody links anything.</param>
    /// <param name="join">The tail of an invitation; null where nobody joins.</param>
    public static AuthenticationProperties Begin(string? then, string? link, string? join)
    {
        var properties = new AuthenticationProperties { RedirectUri = then ?? "/" };
        (properties.Items[Link], properties.Items[Join]) = (link ?? "", join ?? "");
        return properties;
    }

    private static ITimeLimitedDataProtector Protector(IDataProtectionProvider protection) =>
        protection.CreateProtector("TeamCircle.ProviderLinks").ToTimeLimitedDataProtector();

    private static async Task ReceiveAsync(TicketReceivedContext received, IdentityProvider provider)
    {
        var (http, items, user) = (received.HttpContext, received.Properties!.Items, received.Principal!);
        var who = new ProviderIdentity(user.FindFirst("iss")!.Value, user.FindFirst("sub")!.Value);
        var second = provider.SecondFactor is { } value && user.Claims.Any(c => c.Type is "acr" or "amr" && c.Value == value) ? SecondStep.Provider : SecondStep.None;
        await GoTo(received, items[Link] is { Length: > 0 } link ? await LinkAsync(http, link, who)
            : items[Join] is { Length: > 0 } key ? await JoinAsync(http, key, who, second)
            : await SignInAsync(http, who, second, received.ReturnUri));
    }

    private static async Task<string> SignInAsync(HttpContext http, ProviderIdentity who, SecondStep second, string? wanted)
    {
        var begin = http.RequestServices.GetRequiredService<BeginSignIn>();
        if (await http.RequestServices.GetRequiredService<SignInByProvider>().RunAsync(who, begin.PlaceOf(http), http.RequestAborted) is not { } account)
            return "/sign-in?said=unknown";
        return await BeginAsync(http, account, second, wanted is "/" ? null : wanted);
    }

    private static async Task<string> JoinAsync(HttpContext http, string key, ProviderIdentity who, SecondStep second)
    {
        var place = http.RequestServices.GetRequiredService<BeginSignIn>().PlaceOf(http);
        var joined = await http.RequestServices.GetRequiredService<JoinByProvider>().RunAsync(key, who, place, http.RequestAborted);
        return joined.Value is { } done ? await BeginAsync(http, done.Account, second, null)
            : joined.Problems.Contains(Problem.NotFound) ? "/sign-in?said=ended" : $"/join/{key}?said=exists";
    }

    /// <summary>A sign-in never becomes another account's: each has a key of its own.</summary>
    private static async Task<string> BeginAsync(HttpContext http, long account, SecondStep second, string? wanted)
    {
        if (SignInTicket.Of((await http.AuthenticateAsync()).Principal ?? new()) is { } here && here.Account != account)
            return "/sign-out";
        var begun = await http.RequestServices.GetRequiredService<BeginSignIn>().RunByProviderAsync(http, account, second, wanted, http.RequestAborted);
        return begun.Next;
    }

    private static async Task<string> LinkAsync(HttpContext http, string link, ProviderIdentity who)
    {
        var here = SignInTicket.Of((await http.AuthenticateAsync()).Principal ?? new());
        if (Open(http, link) is not { } account || here?.Account != account)
            return "/account/provider?said=late";
        var place = http.RequestServices.GetRequiredService<BeginSignIn>().PlaceOf(http);
        var linked = await http.RequestServices.GetRequiredService<LinkProvider>().RunAsync(account, who, place, http.RequestAborted);
        return linked.Value is null ? "/account/provider?said=taken" : "/account/provider";
    }

    private static long? Open(HttpContext http, string link)
    {
        try
        {
            return long.Parse(Protector(http.RequestServices.GetRequiredService<IDataProtectionProvider>()).Unprotect(link), CultureInfo.InvariantCulture);
        }
        catch (System.Security.Cryptography.CryptographicException) // too late, or none of ours
        {
            return null;
        }
    }

    private static Task GoTo<T>(HandleRequestContext<T> context, string where) where T : RemoteAuthenticationOptions
    {
        context.Response.Redirect(where);
        context.HandleResponse();
        return Task.CompletedTask;
    }
}
