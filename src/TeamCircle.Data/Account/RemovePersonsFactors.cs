using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>
/// Takes a person's lost second factors away, after a reason: they are signed out everywhere, told by mail, and set up new ones at their next
/// sign-in. Whoever does it opens nothing by it: the person's password is asked as before.
/// </summary>
public sealed class RemovePersonsFactors(AccountDb db, NoticeOfChange notice, TimeProvider clock)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Say why."), StringLength(200, MinimumLength = 10, ErrorMessage = "Say why in 10 to 200 characters.")]
        public string Reason { get; init; } = "";
    }

    /// <param name="Removed">How many factors are gone; recovery codes are not counted.</param>
    public sealed record Done(int Removed);

    /// <remarks>An account that works for another agency too is out of an administrator's reach, as for a new password: the operator can.</remarks>
    public async Task<Outcome<Done>> RunAsync(Caller by, int person, Input input, CancellationToken stop)
    {
        if (!RoleRules.LooksAfterPeople(by))
            return Outcome<Done>.Refused(Problem.NotFound);
        var account = await db.Memberships.Where(m => m.AgencyId == by.AgencyId && m.PersonId == person).Select(m => (long?)m.AccountId).SingleOrDefaultAsync(stop);
        if (account is null)
            return Outcome<Done>.Refused("", "This person has not joined: there is nothing to remove.");
        if (!by.Is(Role.Terminal) && await db.Memberships.AnyAsync(m => m.AccountId == account && m.AgencyId != by.AgencyId, stop))
            return Outcome<Done>.Refused("", "This person's account also works for another agency, so only the operator of the portal can do this (TeamCircle.Cli remove-factors).");
        return Outcome<Done>.Of(await RemoveAsync(by, person, account.Value, input.Reason.Trim(), stop));
    }

    private async Task<Done> RemoveAsync(Caller by, int person, long account, string reason, CancellationToken stop)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var removed = await db.Authenticators.Where(a => a.AccountId == account).ExecuteDeleteAsync(stop)
            + await db.UserPasskeys.Where(p => p.UserId == account).ExecuteDeleteAsync(stop);
        await db.RecoveryCodes.Where(c => c.AccountId == account).ExecuteDeleteAsync(stop);
        await db.EndSignInsAsync(account, null, now, stop);
        db.Events.Add(new AccountEventRow
        {
            AccountId = account,
            At = now,
            Kind = AccountEvent.FactorsRemoved,
            Detail = $"{removed} of person {person} of agency {by.AgencyId}, by person {by.PersonId}: {reason}",
        });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return new Done(removed);
    }
}
