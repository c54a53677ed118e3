using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Uses an invitation, once: makes the account, or takes the one that has the e-mail address and its password.</summary>
public sealed class JoinAgency(ReadLink read, UserManager<AccountRow> accounts, AccountDb db, CheckPassword check)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Choose a password."), StringLength(2000), DataType(DataType.Password)]
        public string Password { get; init; } = "";
    }

    public sealed record Done(long Account);

    /// <returns><see cref="Problem.NotFound"/> where the link does not hold any more.</returns>
    public async Task<Outcome<Done>> RunAsync(string key, Input input, Place place, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.Join, key, stop) is not { } link)
            return Outcome<Done>.Refused(Problem.NotFound);
        if (link.HasAccount)
            return await check.RunAsync(link.Email, input.Password, place, AccountEvent.SignedIn, stop) is { } account
                ? await EnterAsync(link, account, null, place, stop)
                : Outcome<Done>.Refused(CheckPassword.NotTogether);
        var problems = PasswordRules.Check(nameof(input.Password), input.Password, link.Context);
        return problems.Count > 0
            ? Outcome<Done>.Refused(problems)
            : await EnterAsync(link, new AccountRow { UserName = link.Email, Email = link.Email, LockoutEnabled = false }, input.Password, place, stop);
    }

    private async Task<Outcome<Done>> EnterAsync(OfferedLink link, AccountRow account, string? newPassword, Place place, CancellationToken stop)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var now = link.Now;
        if (!await db.TakeAsync(link, stop))
            return Outcome<Done>.Refused(Problem.NotFound);
        if (newPassword is not null)
        {
            var made = await accounts.CreateAsync(account, PasswordRules.Normal(newPassword));
            if (!made.Succeeded)
                return Outcome<Done>.Refused([.. made.Errors.Select(e => new Problem("", e.Description))]);
            await db.SaveChangesAsync(stop);
        }
        db.Memberships.Add(new MembershipRow { AgencyId = link.Row.AgencyId!.Value, PersonId = link.Row.PersonId!.Value, AccountId = account.Id, Since = now });
        db.Events.Add(new AccountEventRow { AccountId = account.Id, At = now, Kind = AccountEvent.Joined, Detail = $"agency {link.Row.AgencyId}", Address = place.Address });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(account.Id));
    }
}
