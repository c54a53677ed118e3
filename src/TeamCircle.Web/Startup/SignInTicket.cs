using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;

namespace TeamCircle.Web.Startup;

/// <summary>What a sign-in says: numbers, and a reason that an administrator gave; no name, no address.</summary>
/// <param name="Agency">The agency and person chosen; null before the choice.</param>
/// <param name="Reason">Why an administrator looks into learners' records; holds until <paramref name="ReasonUntil"/>.</param>
internal sealed record SignInTicket(long Account, int? Agency = null, int? Person = null, string? Reason = null, DateTimeOffset? ReasonUntil = null)
{
    /// <summary>The row behind the ticket; the store adds it when it reads the ticket.</summary>
    public long SignIn { get; private init; }

    public static SignInTicket? Of(ClaimsPrincipal user) => user.Identity is not { IsAuthenticated: true } ? null : new SignInTicket(
        long.Parse(user.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture),
        Number(user, "agency"), Number(user, "person"), user.FindFirstValue("reason"),
        user.FindFirstValue("reason-until") is { } until ? DateTimeOffset.Parse(until, CultureInfo.InvariantCulture) : null)
    {
        SignIn = long.Parse(user.FindFirstValue(SignInClaim) ?? "0", CultureInfo.InvariantCulture),
    };

    public string? ReasonAt(DateTimeOffset now) => ReasonUntil > now ? Reason : null;

    public const string SignInClaim = "sign-in";

    /// <summary>Starts a sign-in, or changes what the living one says.</summary>
    public Task WriteAsync(HttpContext http, AuthenticationProperties? keeps = null) =>
        http.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, new ClaimsPrincipal(new ClaimsIdentity(Claims(), "password")), keeps);

    private IEnumerable<Claim> Claims()
    {
        yield return new(ClaimTypes.NameIdentifier, Account.ToString(CultureInfo.InvariantCulture));
        if (Agency is { } agency)
            yield return new("agency", agency.ToString(CultureInfo.InvariantCulture));
        if (Person is { } person)
            yield return new("person", person.ToString(CultureInfo.InvariantCulture));
        if (Reason is not null)
            yield return new("reason", Reason);
        if (ReasonUntil is { } until)
            yield return new("reason-until", until.ToString("O", CultureInfo.InvariantCulture));
    }

    private static int? Number(ClaimsPrincipal user, string claim) =>
        user.FindFirstValue(claim) is { } text ? int.Parse(text, CultureInfo.InvariantCulture) : null;
}
