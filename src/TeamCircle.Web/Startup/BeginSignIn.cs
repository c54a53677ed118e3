using TeamCircle.Core.Account;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>Begins a sign-in for an account whose first step was right, in its agency where it has one only; and completes it by the second step.</summary>
public sealed class BeginSignIn(ReadMemberships memberships, ReadFactors factors, KnownBrowsers browsers, TimeProvider clock)
{
    /// <param name="Next">Where to go: what is lacking, the wanted address, where that person begins, or the choice of an agency.</param>
    public sealed record Begun(string Next, Lack Lacks);

    public Place PlaceOf(HttpContext http) => browsers.PlaceOf(http);

    /// <param name="shown">What was shown beside the first step; a passkey alone is both.</param>
    /// <param name="wanted">One of our own addresses; null where they wanted none.</param>
    public Task<Begun> RunAsync(HttpContext http, long account, SecondStep shown, string? wanted, CancellationToken stop) =>
        RunAsync(http, new SignInTicket(account, clock.GetUtcNow() + SignInTicket.Fresh) { Second = shown }, wanted, stop);

    /// <summary>The same where the first step was the word of an identity provider.</summary>
    public Task<Begun> RunByProviderAsync(HttpContext http, long account, SecondStep shown, string? wanted, CancellationToken stop) =>
        RunAsync(http, new SignInTicket(account, clock.GetUtcNow() + SignInTicket.Fresh) { Second = shown, ByProvider = true }, wanted, stop);

    private async Task<Begun> RunAsync(HttpContext http, SignInTicket ticket, string? wanted, CancellationToken stop)
    {
        var account = ticket.Account;
        var places = await memberships.RunAsync(account, stop);
        var only = places is [var one] ? one : null;
        var demands = await factors.DemandsAsync(account, stop);
        var lacks = SecondStepRules.LackOf(ticket.Second, demands.HasFactor, demands.IsDemonstration, only?.Caller, only is not null && demands.StrictFor.Contains(only.Agency));
        if (lacks is Lack.Nothing)
            browsers.Remember(http, account); // not before: who has the password alone shall not count as known
        await (ticket with { Agency = only?.Agency, Person = only?.Person }).WriteAsync(http);
        return new(lacks is not Lack.Nothing ? Landing.Of(lacks, wanted) : only is null ? "/agency" : wanted ?? Landing.Of(only.Caller), lacks);
    }

    /// <summary>Adds the second step to the sign-in of this request.</summary>
    /// <returns>Where to go next.</returns>
    internal async Task<string> CompleteAsync(HttpContext http, SecondStep shown, string? wanted, CancellationToken stop)
    {
        var ticket = SignInTicket.Of(http.User)!;
        browsers.Remember(http, ticket.Account);
        // A passkey is both steps anew; a code leaves the first step as old as it is.
        var fresh = shown is SecondStep.Passkey ? clock.GetUtcNow() + SignInTicket.Fresh : ticket.FreshUntil;
        await (ticket with { Second = shown, FreshUntil = fresh }).WriteAsync(http);
        if (ticket.Agency is null)
            return "/agency";
        var here = (await memberships.RunAsync(ticket.Account, stop)).FirstOrDefault(m => m.Agency == ticket.Agency);
        return here is null ? "/agency" : wanted ?? Landing.Of(here.Caller);
    }
}
