using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>What a link that still holds offers.</summary>
/// <param name="HasAccount">Whether an account with this e-mail address exists, whose password is then asked for.</param>
public sealed record OfferedLink(InvitationKind Kind, string Email, string PersonName, string AgencyName, bool HasAccount)
{
    /// <summary>The agency that the link is about.</summary>
    public int? Agency => Row.AgencyId;

    internal InvitationRow Row { get; init; } = null!;
    internal Instant Now { get; init; }

    /// <summary>What a stranger would try first as this person's password.</summary>
    internal IReadOnlyList<string> Context => ["TeamCircle", Email, PersonName, AgencyName];
}

/// <summary>Reads what a link offers, without using it: mail programs open links on their own.</summary>
public sealed class ReadLink(AccountDb db, Portal portal, TimeProvider clock)
{
    /// <summary>Null where there is no such link, it was used, it ended, or its person has.</summary>
    public async Task<OfferedLink?> RunAsync(InvitationKind kind, string key, CancellationToken stop)
    {
        var hash = Secret.Of(key).Hash;
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var row = await db.Invitations.AsNoTracking()
            .SingleOrDefaultAsync(i => i.Kind == kind && i.TokenHash == hash && i.UsedAt == null && i.EndsAt > now, stop);
        if (row is not { AgencyId: { } agency, PersonId: { } person })
            return null;
        var who = await portal.ReadAsync(new Scope(Wall.Person, agency, person, [], false, "signing in"), d => (
            from p in d.People
            join a in d.Agencies on p.AgencyId equals a.Id
            where p.AgencyId == agency && p.Id == person && p.EndedAt == null
            select new { Person = p.Name, Agency = a.Name }).SingleOrDefaultAsync(stop), stop);
        var normal = row.Email.ToUpperInvariant();
        return who is null ? null
            : new OfferedLink(kind, row.Email, who.Person, who.Agency, await db.Users.AnyAsync(u => u.NormalizedEmail == normal, stop)) { Row = row, Now = now };
    }
}
