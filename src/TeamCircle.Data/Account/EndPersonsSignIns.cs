using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Signs a person out everywhere: a tablet was lost, or they have left. They can sign in again while they are on the list.</summary>
public sealed class EndPersonsSignIns(AccountDb db, TimeProvider clock)
{
    /// <param name="Ended">How many sign-ins ended.</param>
    public sealed record Done(int Ended);

    public async Task<Outcome<Done>> RunAsync(Caller by, int person, CancellationToken stop)
    {
        if (!RoleRules.LooksAfterPeople(by))
            return Outcome<Done>.Refused(Problem.NotFound);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var account = await db.Memberships.Where(m => m.AgencyId == by.AgencyId && m.PersonId == person).Select(m => (long?)m.AccountId).SingleOrDefaultAsync(stop);
        if (account is null)
            return Outcome<Done>.Of(new Done(0)); // never joined
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var ended = await db.EndSignInsAsync(account.Value, null, now, stop);
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = now,
            Kind = AccountEvent.SignInEnded,
            Detail = $"{ended}, by person {by.PersonId} of agency {by.AgencyId}",
        });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(ended));
    }
}
