using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Sets a new password by a link, once; every sign-in of the account ends. Second factors stay as they are and are asked as before.</summary>
public sealed class SetPasswordByLink(ReadLink read, ReplacePassword replace, AccountDb db)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Choose a password."), StringLength(2000), DataType(DataType.Password)]
        public string Password { get; init; } = "";
    }

    public sealed record Done(long Account);

    /// <returns><see cref="Problem.NotFound"/> where the link does not hold any more.</returns>
    public async Task<Outcome<Done>> RunAsync(string key, Input input, string address, CancellationToken stop)
    {
        if (await read.RunAsync(InvitationKind.NewPassword, key, stop) is not { } link)
            return Outcome<Done>.Refused(Problem.NotFound);
        var problems = PasswordRules.Check(nameof(input.Password), input.Password, link.Context);
        if (problems.Count > 0)
            return Outcome<Done>.Refused(problems);
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        if (!await db.TakeAsync(link, stop))
            return Outcome<Done>.Refused(Problem.NotFound);
        var account = await db.Users.SingleAsync(u => u.Id == link.Row.AccountId, stop);
        await replace.RunAsync(db, account, input.Password, link.Now, stop);
        account.AccessFailedCount = 0;
        await db.EndSignInsAsync(account.Id, null, link.Now, stop);
        db.Events.Add(new AccountEventRow { AccountId = account.Id, At = link.Now, Kind = AccountEvent.PasswordSetByLink, Address = address });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(account.Id));
    }
}
