using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Practice;

namespace TeamCircle.Data.Practice;

/// <summary>What a learner's practices say of position and switch over time.</summary>
/// <param name="Since">The first day that was looked at.</param>
public sealed record OverTimePage(int LearnerId, string Learner, LocalDate Since, IReadOnlyList<PositionDay> Positions, IReadOnlyList<SwitchDay> Switches);

/// <summary>Reads what was written down about position and switch in a learner's practices, without those of second observers.</summary>
public sealed class ReadOverTime(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<OverTimePage?> RunAsync(Scope scope, int learner, LocalDate since, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var practices = await PracticesAsync(db, scope.AgencyId, learner, since, stop);
        return new OverTimePage(learner, name, since, OverTime.Positions(practices), OverTime.Switches(practices));
    }, stop);

    // the conditions lie in the practice's own document: only what is asked of it leaves the database
    private static async Task<List<PractisedConditions>> PracticesAsync(PortalDb db, int agency, int learner, LocalDate since, CancellationToken stop)
    {
        var rows = await db.Database.SqlQuery<Written>(
            $$"""
            select on_day, coalesce(record -> 'conditions', '{}')::text as conditions,
                   jsonb_array_length(jsonb_path_query_array(record, '$.trials[*].events[*] ? (@.by == "learnerSwitch" && @.kind == "response")')) as answers,
                   coalesce(jsonb_array_length(record -> 'unaskedClosures'), 0) as unasked
              from portal.practices
             where agency_id = {{agency}} and learner_id = {{learner}} and live and observes_code is null and on_day >= {{since}}
             order by started_at
            """).ToListAsync(stop);
        return rows.ConvertAll(r => new PractisedConditions(r.OnDay, JsonSerializer.Deserialize<Conditions>(r.Conditions, StrictJson.Options)!, r.Answers, r.Unasked));
    }

    private sealed record Written(LocalDate OnDay, string Conditions, int Answers, int Unasked);
}
