using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Startup;

/// <summary>Keeps sign-ins on the server: the cookie carries a random key, the ticket stays here.</summary>
internal sealed class TicketStore(KeepSignIn keep, ChangeTicket change, FindSignIn find, EndSignIn end, IDataProtectionProvider protection) : ITicketStore
{
    private readonly IDataProtector _protector = protection.CreateProtector("TeamCircle.SignIns");

    public Task<string> StoreAsync(AuthenticationTicket ticket) => StoreAsync(ticket, CancellationToken.None);
    public Task RenewAsync(string key, AuthenticationTicket ticket) => RenewAsync(key, ticket, CancellationToken.None);
    public Task<AuthenticationTicket?> RetrieveAsync(string key) => RetrieveAsync(key, CancellationToken.None);
    public Task RemoveAsync(string key) => RemoveAsync(key, CancellationToken.None);

    public Task<string> StoreAsync(AuthenticationTicket ticket, CancellationToken cancellationToken) =>
        StoreAsync(ticket, "", cancellationToken);

    public Task<string> StoreAsync(AuthenticationTicket ticket, HttpContext httpContext, CancellationToken cancellationToken) =>
        StoreAsync(ticket, Browser.NameOf(httpContext.Request.Headers.UserAgent), cancellationToken);

    public Task RenewAsync(string key, AuthenticationTicket ticket, CancellationToken cancellationToken) =>
        change.RunAsync(key, Protect(ticket), cancellationToken);

    public async Task<AuthenticationTicket?> RetrieveAsync(string key, CancellationToken cancellationToken)
    {
        if (await find.RunAsync(key, cancellationToken) is not { } living)
            return null;
        var ticket = TicketSerializer.Default.Deserialize(_protector.Unprotect(living.Ticket));
        ticket?.Principal.AddIdentity(SignInTicket.Standing(living));
        return ticket;
    }

    public Task RemoveAsync(string key, CancellationToken cancellationToken) => end.RunAsync(key, cancellationToken);

    private Task<string> StoreAsync(AuthenticationTicket ticket, string device, CancellationToken stop) =>
        keep.RunAsync(SignInTicket.Of(ticket.Principal)!.Account, Protect(ticket), device, stop);

    private byte[] Protect(AuthenticationTicket ticket) => _protector.Protect(TicketSerializer.Default.Serialize(ticket));
}
