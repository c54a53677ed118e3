using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Retention;

/// <summary>
/// Finds what the agency's rules say is due, and proposes it, one learner and one part at a time. What a hold, a request that is open or quiet
/// keeps, what a proposal is open about, and what a person has stopped within a year is left alone.
/// </summary>
public sealed class ProposeDestructions(Portal portal, TimeProvider clock)
{
    private const string Ground = "retention";

    public sealed record Saved(int Proposed);

    private sealed record Left(int Learner, LocalDate? LeftOn);

    /// <returns>How many were proposed.</returns>
    public async Task<int> RunAsync(int agency, CancellationToken stop = default)
    {
        var (terminal, rules, learners, today) = await portal.ReadAsync(Scope.Job(agency, 0, Ground), async db => (
            await db.PersonRoles.Where(r => r.AgencyId == agency && r.Role == Role.Terminal).Select(r => r.PersonId).FirstAsync(stop),
            await InForceAsync(db, agency, stop),
            await db.Database.SqlQuery<Left>($"""select learner, left_on from portal.days_left()""").ToListAsync(stop),
            AgencyClock.Today(clock, await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop))), stop);
        var proposed = 0;
        foreach (var rule in rules.Where(r => r.Years is not null))
        {
            foreach (var learner in learners)
            {
                if (RetentionRules.DueUpTo(rule.CountedFrom!.Value, rule.Years!.Value, learner.LeftOn, today) is not { } upTo)
                    continue;
                var outcome = await portal.WriteAsync(
                    Scope.Job(agency, terminal, Ground), Operation.Own(nameof(ProposeDestructions)), db => ProposeAsync(db, rule, learner.Learner, upTo, today, stop), stop);
                proposed += outcome.Value?.Proposed ?? 0;
            }
        }
        return proposed;
    }

    /// <summary>The newest rule of each kind, in the order of the kinds.</summary>
    internal static async Task<IReadOnlyList<RetentionRuleRow>> InForceAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var all = await db.RetentionRules.Where(r => r.AgencyId == agency).OrderBy(r => r.Id).ToListAsync(stop);
        return [.. all.GroupBy(r => r.Kind).OrderBy(g => g.Key).Select(g => g.Last())];
    }

    /// <summary>How many entries a part of a record has up to a day.</summary>
    internal static Task<int> FoundAsync(PortalDb db, int learner, RecordKind kind, LocalDate upTo, CancellationToken stop) =>
        db.Database.SqlQuery<int>($"""select count(*)::int as "Value" from portal.records_of({learner}, {kind.ToString()}, {upTo})""").SingleAsync(stop);

    /// <summary>What keeps it: hold, request or quiet; null where nothing does.</summary>
    internal static Task<string?> KeptByAsync(PortalDb db, int learner, RecordKind kind, LocalDate upTo, CancellationToken stop) =>
        db.Database.SqlQuery<string?>($"""select portal.kept_by({learner}, {kind.ToString()}, {upTo}) as "Value" """).SingleAsync(stop);

    private static async Task<Outcome<Saved>> ProposeAsync(PortalDb db, RetentionRuleRow rule, int learner, LocalDate upTo, LocalDate today, CancellationToken stop)
    {
        var yearAgo = today.PlusYears(-1);
        var isKnown = await db.Destructions.AnyAsync(
            d => d.AgencyId == rule.AgencyId && d.LearnerId == learner && d.Kind == rule.Kind && d.DestroyedAt == null && (d.StoppedAt == null || d.ProposedOn > yearAgo), stop);
        if (isKnown || await FoundAsync(db, learner, rule.Kind, upTo, stop) is not (> 0 and var found) || await KeptByAsync(db, learner, rule.Kind, upTo, stop) is not null)
            return Outcome<Saved>.Refused("", "Nothing is due.");
        db.Add(new DestructionRow
        {
            AgencyId = rule.AgencyId,
            LearnerId = learner,
            Kind = rule.Kind,
            UpTo = upTo,
            RuleId = rule.Id,
            Found = found,
            ProposedOn = today,
            NoticeDays = rule.NoticeDays,
        });
        return Outcome<Saved>.Of(new(1));
    }
}
