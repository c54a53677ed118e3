using TeamCircle.Core;
using TeamCircle.Core.Account;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>
/// Roles, links, and how one signs in are changed only by somebody who showed who they are within a quarter of an hour: at sign-in, or in the form
/// itself, which then asks for the password, and for a code where the account has a second factor.
/// </summary>
/// <remarks>OWASP ASVS 5.0, 7.5.1.</remarks>
public sealed class FreshSignIn(ConfirmPassword confirm, TakeSecondStep take, KnownBrowsers browsers, TimeProvider clock)
{
    /// <summary>What a form must ask for.</summary>
    public enum Asks
    {
        Nothing,
        Password,
        PasswordAndCode,
    }

    public Asks Of(HttpContext http) => SignInTicket.Of(http.User) is not { } ticket || ticket.FreshUntil <= clock.GetUtcNow()
        ? SignInTicket.Of(http.User) is { HasFactor: true } ? Asks.PasswordAndCode : Asks.Password
        : Asks.Nothing;

    /// <summary>Null where the sign-in is fresh, or became so by what was typed into the fields of the partial view of the same name.</summary>
    public async Task<Problem?> CheckAsync(HttpContext http, CancellationToken stop)
    {
        if (Of(http) is not (var asks and not Asks.Nothing))
            return null;
        var (ticket, place) = (SignInTicket.Of(http.User)!, browsers.PlaceOf(http));
        string? Typed(string field) => http.Request.Form[field] is [{ Length: > 0 and <= 2000 } one] ? one : null;
        if (Typed("Password") is not { } password || !await confirm.RunAsync(ticket.Account, password, place, stop))
            return new Problem("Password", "Enter your own password: you typed it more than a quarter of an hour ago.");
        var second = asks is Asks.PasswordAndCode ? await take.RunAsync(ticket.Account, Typed("Code"), place, stop) : ticket.Second;
        if (asks is Asks.PasswordAndCode && second is SecondStep.None)
            return new Problem("Code", "Enter the code that your authenticator app shows now; each code counts once.");
        await (ticket with { FreshUntil = clock.GetUtcNow() + SignInTicket.Fresh, Second = second }).WriteAsync(http);
        return null;
    }
}
