using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads what was given otherwise than promised in a period, and what never became a row.</summary>
internal static class ReadChecks
{
    private const int MostImports = 10;

    /// <summary>Visits given in the period at another place, in another format, or by somebody not named; probes by others.</summary>
    public static List<LineCheck> Otherwise(NpgsqlConnection connection, RowFilter rows, CommitmentFacts facts, PeriodRow period, LocalDate asOf)
    {
        var found = new List<LineCheck>();
        var days = $"between date '{period.StartDay:uuuu-MM-dd}' and date '{LocalDate.Min(period.EndDay, asOf):uuuu-MM-dd}'";
        var index = new LineIndex([.. facts.Lines]);
        CopyRows.Read(connection, $"""
            select s.service_id, (count(*) filter (where a.id is null))::int, (count(*) filter (where s.place <> v.place))::int,
                   (count(*) filter (where s.format <> v.format))::int
            from portal.sessions s
            join portal.services v on (v.agency_id, v.learner_id, v.id) = (s.agency_id, s.learner_id, s.service_id)
            left join portal.assignments a on (a.agency_id, a.service_id, a.person_id) = (s.agency_id, s.service_id, s.provider_id)
                and a.live and s.on_day between a.from_day and a.to_day
            where {rows.Sql("s")} and s.live and s.outcome = 'Given' and s.on_day {days}
                and (a.id is null or s.place <> v.place or s.format <> v.format)
            group by s.service_id
            """, row =>
        {
            var line = index.Service(row.Int());
            foreach (var kind in (ReadOnlySpan<CheckKind>)[CheckKind.ByOther, CheckKind.OtherPlace, CheckKind.OtherFormat])
                Add(line, kind, row.Int());
        });
        CopyRows.Read(connection, $"""
            select p.goal_id, count(*)::int from portal.probes p
            where {rows.Sql("p")} and p.live and p.kind = 'Probe' and p.on_day {days} and not exists (
                select from portal.goal_owners o where (o.agency_id, o.goal_id, o.person_id) = (p.agency_id, p.goal_id, p.provider_id)
                    and o.live and p.on_day between o.from_day and o.to_day)
            group by p.goal_id
            """, row => Add(index.Goal(row.Int()) is { Count: > 0 } goal ? goal.First : -1, CheckKind.ByOther, row.Int()));
        return found;

        void Add(int line, CheckKind kind, int count)
        {
            if (line >= 0 && count > 0)
                found.Add(new(line, kind, count));
        }
    }

    /// <summary>The last imports that left rows out.</summary>
    public static Task<List<RefusedRows>> RefusedAsync(PortalDb db, int agency, CancellationToken stop) => db.Imports
        .Where(i => i.AgencyId == agency && i.Refused > 0).OrderByDescending(i => i.Id).Take(MostImports)
        .Select(i => new RefusedRows(i.At, i.Refused)).ToListAsync(stop);

    /// <summary>How many things that devices sent wait for a person.</summary>
    public static Task<int> SetAsideAsync(PortalDb db, int agency, CancellationToken stop) =>
        db.Operations.CountAsync(o => o.AgencyId == agency && o.State == OperationState.SetAside, stop);
}
