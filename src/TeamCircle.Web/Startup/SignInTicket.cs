using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;

namespace TeamCircle.Web.Startup;

/// <summary>What a sign-in says: numbers, and a reason that an administrator gave; no name, no address.</summary>
/// <param name="Agency">The agency and person chosen; null before the choice.</param>
/// <param name="FreshUntil">Until then the password need not be given again before changing roles or links.</param>
/// <param name="Reason">Why an administrator looks into learners' records; holds until <paramref name="ReasonUntil"/>.</param>
internal sealed record SignInTicket(
    long Account, DateTimeOffset FreshUntil, int? Agency = null, int? Person = null, string? Reason = null, DateTimeOffset? ReasonUntil = null)
{
    /// <summary>The row behind the ticket; the store adds it when it reads the ticket.</summary>
    public long SignIn { get; private init; }

    public static SignInTicket? Of(ClaimsPrincipal user) => user.Identity is not { IsAuthenticated: true } ? null : new SignInTicket(
        long.Parse(user.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture),
        Moment(user, "fresh-until") ?? default, Number(user, "agency"), Number(user, "person"), user.FindFirstValue("reason"), Moment(user, "reason-until"))
    {
        SignIn = long.Parse(user.FindFirstValue(SignInClaim) ?? "0", CultureInfo.InvariantCulture),
    };

    public static readonly TimeSpan Fresh = TimeSpan.FromMinutes(15);

    public string? ReasonAt(DateTimeOffset now) => ReasonUntil > now ? Reason : null;

    public const string SignInClaim = "sign-in";

    /// <summary>Starts a sign-in, or changes what the living one says.</summary>
    public Task WriteAsync(HttpContext http) =>
        http.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, new ClaimsPrincipal(new ClaimsIdentity(Claims(), "password")));

    private IEnumerable<Claim> Claims()
    {
        yield return new(ClaimTypes.NameIdentifier, Account.ToString(CultureInfo.InvariantCulture));
        yield return new("fresh-until", FreshUntil.ToString("O", CultureInfo.InvariantCulture));
        if (Agency is { } agency)
            yield return new("agency", agency.ToString(CultureInfo.InvariantCulture));
        if (Person is { } person)
            yield return new("person", person.ToString(CultureInfo.InvariantCulture));
        if (Reason is not null)
            yield return new("reason", Reason);
        if (ReasonUntil is { } until)
            yield return new("reason-until", until.ToString("O", CultureInfo.InvariantCulture));
    }

    private static DateTimeOffset? Moment(ClaimsPrincipal user, string claim) =>
        user.FindFirstValue(claim) is { } text ? DateTimeOffset.Parse(text, CultureInfo.InvariantCulture) : null;

    private static int? Number(ClaimsPrincipal user, string claim) =>
        user.FindFirstValue(claim) is { } text ? int.Parse(text, CultureInfo.InvariantCulture) : null;
}
