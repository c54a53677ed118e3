using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using TeamCircle.Core.Account;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>What a sign-in says: numbers, and a reason that an administrator gave; no name, no address.</summary>
/// <param name="Agency">The agency and person chosen; null before the choice.</param>
/// <param name="FreshUntil">Until then nothing need be shown again before changing how one signs in, roles or links.</param>
/// <param name="Reason">Why an administrator looks into learners' records; holds until <paramref name="ReasonUntil"/>.</param>
internal sealed record SignInTicket(
    long Account, DateTimeOffset FreshUntil, int? Agency = null, int? Person = null, string? Reason = null, DateTimeOffset? ReasonUntil = null)
{
    /// <summary>What was shown beside the first step.</summary>
    public SecondStep Second { get; init; }

    /// <summary>The first step was the word of the agency's identity provider, not a password.</summary>
    public bool ByProvider { get; init; }

    /// <summary>The row behind the ticket; the store adds it when it reads the ticket, and what stands of the account at that moment.</summary>
    public long SignIn { get; private init; }

    /// <summary>The account has an authenticator or a passkey.</summary>
    public bool HasFactor { get; private init; }

    private bool IsDemonstration { get; init; }

    private string[] StrictFor { get; init; } = [];

    /// <param name="caller">As whom they act; null before an agency is chosen.</param>
    public Lack LackOf(Caller? caller) => SecondStepRules.LackOf(
        Second, HasFactor, IsDemonstration, caller, caller is not null && StrictFor.Contains(caller.AgencyId.ToString(CultureInfo.InvariantCulture)));

    public static SignInTicket? Of(ClaimsPrincipal user) => user.Identity is not { IsAuthenticated: true } ? null : new SignInTicket(
        long.Parse(user.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture),
        Moment(user, "fresh-until") ?? default, Number(user, "agency"), Number(user, "person"), user.FindFirstValue("reason"), Moment(user, "reason-until"))
    {
        Second = user.FindFirstValue("second") is { } second ? Enum.Parse<SecondStep>(second) : SecondStep.None,
        ByProvider = user.HasClaim("by-provider", "1"),
        SignIn = long.Parse(user.FindFirstValue(SignInClaim) ?? "0", CultureInfo.InvariantCulture),
        HasFactor = user.HasClaim(HasFactorClaim, "1"),
        IsDemonstration = user.HasClaim(DemonstrationClaim, "1"),
        StrictFor = user.FindFirstValue(StrictForClaim)?.Split(' ') ?? [],
    };

    public static readonly TimeSpan Fresh = TimeSpan.FromMinutes(15);

    public string? ReasonAt(DateTimeOffset now) => ReasonUntil > now ? Reason : null;

    private const string SignInClaim = "sign-in", HasFactorClaim = "has-factor", DemonstrationClaim = "demonstration", StrictForClaim = "strict-for";

    /// <summary>What the store knows of a living sign-in besides its ticket: read at each request, never kept in one.</summary>
    public static ClaimsIdentity Standing(LivingSignIn living) => new(
    [
        new(SignInClaim, living.Id.ToString(CultureInfo.InvariantCulture)),
        new(HasFactorClaim, living.HasFactor ? "1" : "0"),
        new(DemonstrationClaim, living.IsDemonstration ? "1" : "0"),
        new(StrictForClaim, string.Join(' ', living.StrictFor)),
    ]);

    /// <summary>Starts a sign-in, or changes what the living one says. A form that the answer shows is theirs from then on.</summary>
    public async Task WriteAsync(HttpContext http)
    {
        var user = new ClaimsPrincipal(new ClaimsIdentity(Claims(), "password"));
        await http.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, user);
        // What the store knows of it stays beside it for the rest of this request.
        user.AddIdentities(http.User.Identities.Where(i => !i.IsAuthenticated));
        http.User = user;
    }

    private IEnumerable<Claim> Claims()
    {
        yield return new(ClaimTypes.NameIdentifier, Account.ToString(CultureInfo.InvariantCulture));
        yield return new("fresh-until", FreshUntil.ToString("O", CultureInfo.InvariantCulture));
        yield return new("second", Second.ToString());
        if (ByProvider)
            yield return new("by-provider", "1");
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
