using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

/// <summary>Sets whether an agency's families need a second factor. It acts on their next request.</summary>
public sealed class SetSignInRule(AccountDb db, TimeProvider clock)
{
    public sealed record Input
    {
        public bool FamiliesNeedSecondFactor { get; init; }

        [Required(ErrorMessage = "Say why."), StringLength(500, MinimumLength = 10, ErrorMessage = "Say why in 10 to 500 characters.")]
        public string Reason { get; init; } = "";
        public int Version { get; init; }
    }

    public sealed record Done(bool FamiliesNeedSecondFactor);

    /// <summary>What stands; what an agency has that never set anything.</summary>
    public async Task<Input> ReadAsync(int agency, CancellationToken stop) =>
        await db.SignInRules.AsNoTracking().SingleOrDefaultAsync(r => r.AgencyId == agency, stop) is { } row
            ? new() { FamiliesNeedSecondFactor = row.FamiliesNeedSecondFactor, Reason = row.Reason, Version = row.Version }
            : new();

    public async Task<Outcome<Done>> RunAsync(Caller by, Input input, CancellationToken stop)
    {
        if (!by.Is(Role.Administrator))
            return Outcome<Done>.Refused(Problem.NotFound);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var (need, reason) = (input.FamiliesNeedSecondFactor, input.Reason.Trim());
        await using var transaction = await db.Database.BeginTransactionAsync(stop);
        // Whoever comes second, also at the same moment, has not seen what the first one set.
        var saved = await db.Database.ExecuteSqlAsync($"""
            insert into account.sign_in_rules as r (agency_id, families_need_second_factor, reason, by, at, version)
            values ({by.AgencyId}, {need}, {reason}, {by.PersonId}, {now}, 1)
            on conflict (agency_id) do update set families_need_second_factor = {need}, reason = {reason}, by = {by.PersonId}, at = {now}, version = r.version + 1
            where r.version = {input.Version}
            """, stop);
        if (saved == 0)
            return Outcome<Done>.Refused(Refusals.ChangedMeanwhile);
        db.Events.Add(new AccountEventRow
        {
            At = now,
            Kind = AccountEvent.RuleSet,
            Detail = $"families of agency {by.AgencyId} {(need ? "need a second factor" : "sign in with a password alone")}, by person {by.PersonId}: {reason}",
        });
        await db.SaveChangesAsync(stop);
        await transaction.CommitAsync(stop);
        return Outcome<Done>.Of(new Done(need));
    }
}
