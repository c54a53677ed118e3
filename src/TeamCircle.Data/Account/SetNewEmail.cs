using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Account;

/// <summary>
/// Takes the link that came to a new address: from then on the account signs in with it, and every agency's list has it. The old address is told;
/// every sign-in ends.
/// </summary>
/// <remarks>
/// The lists are changed first, each under an operation of the link's own: where the portal ends in between, the same link does the rest.
/// </remarks>
public sealed class SetNewEmail(ReadLink read, AccountDb db, Portal portal, NoticeOfChange notice)
{
    public sealed record Done(string Email);

    /// <returns><see cref="Problem.NotFound"/> where the link does not hold any more.</returns>
    public async Task<Outcome<Done>> RunAsync(string key, string address, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.NewEmail, key, stop) is not { Row.AccountId: { } account } link)
            return Outcome<Done>.Refused(Problem.NotFound);
        if (link.HasAccount)
            return Outcome<Done>.Refused("", "Somebody signs in with this address already.");
        foreach (var at in await db.Memberships.AsNoTracking().Where(m => m.AccountId == account).ToListAsync(stop))
        {
            if (await ChangeListAsync(at, link, stop) is { Count: > 0 } problems)
                return Outcome<Done>.Refused(problems);
        }
        return await ChangeAccountAsync(link, account, address, stop);
    }

    private async Task<IReadOnlyList<Problem>> ChangeListAsync(MembershipRow at, OfferedLink link, CancellationToken stop)
    {
        var scope = new Scope(Wall.Agency, at.AgencyId, at.PersonId, [], true, "their own e-mail address");
        var operation = Operation.Of(new Guid(link.Row.TokenHash.AsSpan(0, 16)), nameof(SetNewEmail), link.Email);
        var outcome = await portal.WriteAsync(scope, operation, async d =>
        {
            var person = await d.People.SingleAsync(p => p.AgencyId == at.AgencyId && p.Id == at.PersonId, stop);
            person.Email = link.Email;
            return Outcome<Done>.Of(new Done(link.Email));
        }, stop);
        return outcome.Problems;
    }

    private async Task<Outcome<Done>> ChangeAccountAsync(OfferedLink link, long account, string address, CancellationToken stop)
    {
        try
        {
            await using var transaction = await db.Database.BeginTransactionAsync(stop);
            if (!await db.TakeAsync(link, stop))
                return Outcome<Done>.Refused(Problem.NotFound);
            await notice.QueueAsync(db, account, link.Now, stop); // while the account still has the old address
            var row = await db.Users.SingleAsync(u => u.Id == account, stop);
            row.Email = row.UserName = link.Email;
            row.NormalizedEmail = row.NormalizedUserName = link.Email.ToUpperInvariant();
            await db.EndSignInsAsync(account, null, link.Now, stop);
            db.Events.Add(new AccountEventRow { AccountId = account, At = link.Now, Kind = AccountEvent.EmailChanged, Address = address });
            await db.SaveChangesAsync(stop);
            await transaction.CommitAsync(stop);
            return Outcome<Done>.Of(new Done(link.Email));
        }
        catch (DbUpdateException e) when (e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
        {
            return Outcome<Done>.Refused("", "Somebody signs in with this address already.");
        }
    }
}
