using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>Begins a sign-in for an account whose password was right, in its agency where it has one only.</summary>
public sealed class BeginSignIn(ReadMemberships memberships, KnownBrowsers browsers, TimeProvider clock)
{
    public Place PlaceOf(HttpContext http) => browsers.PlaceOf(http);

    /// <returns>Where to go next: the wanted address, where that person begins, or the choice of an agency.</returns>
    public async Task<string> RunAsync(HttpContext http, long account, string? wanted, CancellationToken stop)
    {
        browsers.Remember(http, account);
        var places = await memberships.RunAsync(account, stop);
        var only = places is [var one] ? one : null;
        await new SignInTicket(account, clock.GetUtcNow() + SignInTicket.Fresh, only?.Agency, only?.Person).WriteAsync(http);
        return only is null ? "/agency" : wanted ?? Landing.Of(only.Caller);
    }
}
