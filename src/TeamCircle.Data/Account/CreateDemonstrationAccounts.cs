using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Gives people of an agency that is made up an account with one stated passphrase. Never outside Development.</summary>
public sealed class CreateDemonstrationAccounts(Portal portal, UserManager<AccountRow> accounts, AccountDb db, TimeProvider clock)
{
    public const string Passphrase = "herbs towel ribbons banana";

    /// <summary>An e-mail address that may sign in with <see cref="Passphrase"/>.</summary>
    public sealed record Made(string Email, string Name, IReadOnlyList<Role> Roles);

    /// <inheritdoc cref="RunAsync(Scope, bool, IReadOnlyList{string}?, CancellationToken)"/>
    public Task<IReadOnlyList<Made>> RunAsync(Scope wholeAgency, bool isDevelopment, CancellationToken stop) => RunAsync(wholeAgency, isDevelopment, null, stop);

    /// <summary>Does nothing to people who have an account already.</summary>
    /// <param name="isDevelopment">Stated by whoever starts the portal.</param>
    /// <param name="only">The e-mail addresses of those who get one; null for everybody.</param>
    /// <exception cref="InvalidOperationException">Not in Development: a portal with known passwords holds nobody's records.</exception>
    public async Task<IReadOnlyList<Made>> RunAsync(Scope wholeAgency, bool isDevelopment, IReadOnlyList<string>? only, CancellationToken stop)
    {
        if (!isDevelopment)
            throw new InvalidOperationException("Accounts with a known passphrase are made in Development only.");
        var people = await portal.ReadAsync(wholeAgency, d => d.People
            .Where(p => p.AgencyId == wholeAgency.AgencyId && p.EndedAt == null && p.Email != "terminal" && (only == null || only.Contains(p.Email))).OrderBy(p => p.Id).ToListAsync(stop), stop);
        var roles = await portal.ReadAsync(wholeAgency, d => d.PersonRoles
            .Where(r => r.AgencyId == wholeAgency.AgencyId).Select(r => new { r.PersonId, r.Role }).ToListAsync(stop), stop);
        var has = await db.Memberships.Where(m => m.AgencyId == wholeAgency.AgencyId).Select(m => m.PersonId).ToListAsync(stop);
        foreach (var person in people.Where(p => !has.Contains(p.Id)))
            await AddAsync(person.Email, wholeAgency.AgencyId, person.Id, stop);
        return [.. people.Select(p => new Made(p.Email, p.Name, [.. roles.Where(r => r.PersonId == p.Id).Select(r => r.Role)]))];
    }

    private async Task AddAsync(string email, int agency, int person, CancellationToken stop)
    {
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        var account = await accounts.FindByEmailAsync(email) ?? new AccountRow { UserName = email, Email = email, IsDemonstration = true };
        if (account.Id == 0)
        {
            var made = await accounts.CreateAsync(account, Passphrase);
            if (!made.Succeeded)
                throw new InvalidOperationException("Identity refused a demonstration account: " + made);
            await db.SaveChangesAsync(stop);
        }
        db.Memberships.Add(new MembershipRow { AgencyId = agency, PersonId = person, AccountId = account.Id, Since = Instant.FromDateTimeOffset(clock.GetUtcNow()) });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
    }
}
