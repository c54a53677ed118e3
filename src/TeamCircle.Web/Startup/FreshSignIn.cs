using TeamCircle.Core;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>
/// Roles and links are given only by somebody who typed their password within a quarter of an hour: at sign-in, or in
/// the form itself, which then asks for it.
/// </summary>
public sealed class FreshSignIn(ConfirmPassword confirm, KnownBrowsers browsers, TimeProvider clock)
{
    public bool IsFresh(HttpContext http) => SignInTicket.Of(http.User) is { } ticket && ticket.FreshUntil > clock.GetUtcNow();

    /// <summary>Null where the sign-in is fresh, or became so by the password.</summary>
    public async Task<Problem?> CheckAsync(HttpContext http, string? password, CancellationToken stop)
    {
        if (IsFresh(http))
            return null;
        var ticket = SignInTicket.Of(http.User)!;
        if (string.IsNullOrEmpty(password) || !await confirm.RunAsync(ticket.Account, password, browsers.PlaceOf(http), stop))
            return new Problem("Password", "Enter your own password: you typed it more than a quarter of an hour ago.");
        await (ticket with { FreshUntil = clock.GetUtcNow() + SignInTicket.Fresh }).WriteAsync(http);
        return null;
    }
}
