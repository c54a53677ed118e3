using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Changes one's own password, the old one asked again; every other sign-in of the account ends.</summary>
public sealed class ChangePassword(ReplacePassword replace, AccountDb db, CheckPassword check, ReadMemberships memberships)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Enter the password that you have now."), StringLength(2000), DataType(DataType.Password)]
        public string Current { get; init; } = "";

        [Required(ErrorMessage = "Choose a new password."), StringLength(2000), DataType(DataType.Password)]
        public string New { get; init; } = "";
    }

    public sealed record Done(long Account);

    /// <param name="thisSignIn">The one that stays.</param>
    public async Task<Outcome<Done>> RunAsync(long account, long thisSignIn, Input input, Place place, CancellationToken stop)
    {
        var row = await db.Users.SingleAsync(u => u.Id == account, stop);
        var problems = PasswordRules.Check(nameof(input.New), input.New, await ContextAsync(row, stop));
        if (problems.Count > 0)
            return Outcome<Done>.Refused(problems);
        if (await check.RunAsync(row.Email!, input.Current, place, AccountEvent.PasswordGivenAgain, stop) is null)
            return Outcome<Done>.Refused(nameof(input.Current), "That is not the password you have now. After several wrong tries we look again a quarter of an hour later.");
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        await replace.RunAsync(db, row, input.New, check.Now, stop);
        db.Events.Add(new AccountEventRow { AccountId = account, At = check.Now, Kind = AccountEvent.PasswordChanged, Address = place.Address });
        await db.EndSignInsAsync(account, thisSignIn, check.Now, stop);
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(account));
    }

    private async Task<IReadOnlyList<string>> ContextAsync(AccountRow account, CancellationToken stop) =>
        ["TeamCircle", account.Email!, .. (await memberships.RunAsync(account.Id, stop)).SelectMany(m => new[] { m.AgencyName, m.Caller.Name })];
}
