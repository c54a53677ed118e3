using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Account;

/// <summary>Adds a passkey that a browser has made, under a name by which its owner knows it again.</summary>
public sealed class AddPasskey(AccountDb db, UserManager<AccountRow> accounts, IPasskeyHandler<AccountRow> passkeys, NoticeOfChange notice)
{
    public const int Most = 10;

    public sealed record Input
    {
        [Required(ErrorMessage = "Give it a name, such as the device on which it lies."), StringLength(60)]
        public string Name { get; init; } = "";

        /// <summary>Of the question (<see cref="AskPasskey"/>).</summary>
        public string? Key { get; init; }

        /// <summary>JSON as the browser gave it.</summary>
        public string? Credential { get; init; }
    }

    /// <param name="NewCodes">Recovery codes made with the first factor, to be shown once; empty where the account has some already.</param>
    public sealed record Done(IReadOnlyList<string> NewCodes);

    public async Task<Outcome<Done>> RunAsync(long account, Input input, Place place, Instant now, HttpContext http, CancellationToken stop)
    {
        if (await AskPasskey.TakeAsync(db, input.Key, account, now, stop) is not { } state)
            return Outcome<Done>.Refused("", "That took too long. Try again.");
        var made = await passkeys.PerformAttestationAsync(new() { HttpContext = http, CredentialJson = input.Credential ?? "", AttestationState = state });
        if (!made.Succeeded || !made.Passkey.IsUserVerified)
            return Outcome<Done>.Refused("", "The device did not make a passkey that asks for its owner. Try again, or use an authenticator app.");
        if (await db.UserPasskeys.CountAsync(p => p.UserId == account, stop) >= Most)
            return Outcome<Done>.Refused("", $"There are {Most} passkeys already. Remove one that you do not use.");
        made.Passkey.Name = input.Name.Trim();
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var row = await db.Users.SingleAsync(u => u.Id == account, stop);
        await accounts.AddOrUpdatePasskeyAsync(row, made.Passkey);
        var codes = await db.RecoveryCodes.AnyAsync(c => c.AccountId == account && c.UsedAt == null, stop) ? [] : await RecoveryCodes.ReplaceAsync(db, account, stop);
        db.Events.Add(new AccountEventRow { AccountId = account, At = now, Kind = AccountEvent.PasskeyAdded, Address = place.Address });
        await db.SaveChangesAsync(stop);
        await notice.QueueAsync(db, account, now, stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(codes));
    }
}
