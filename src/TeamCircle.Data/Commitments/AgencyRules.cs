using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Commitments;

/// <summary>An agency's calendar, reporting periods and policies, as the ledger takes them.</summary>
/// <param name="Agency">The agency's own row.</param>
/// <param name="Calendar">Terms, weekdays, closures and extra days.</param>
/// <param name="Periods">All reporting periods, oldest first.</param>
/// <param name="PolicyRows">The policies with their words, oldest first; of two that begin together the later one holds.</param>
public sealed record AgencyRules(
    AgencyRow Agency, SchoolCalendar Calendar, IReadOnlyList<PeriodRow> Periods, IReadOnlyList<PolicyRow> PolicyRows)
{
    /// <summary>The policies over time; an agency without any counts by <see cref="Policy.Default"/>.</summary>
    public Policies Policies { get; } = Dated(PolicyRows);

    /// <summary>The windows of this calendar; one for each thread.</summary>
    public WindowCatalog Windows() => new(Calendar, Periods.Select(p => DateRange.Of(p.StartDay, p.EndDay)));

    /// <summary>The policy that holds on a day, with its words; null where the agency has none.</summary>
    public PolicyRow? PolicyOn(LocalDate day) => PolicyRows.LastOrDefault(p => p.FromDay <= day) ?? (PolicyRows.Count == 0 ? null : PolicyRows[0]);

    /// <summary>All of it by one statement, which nearly every page asks first.</summary>
    public static async Task<AgencyRules> ReadAsync(PortalDb db, int agency, CancellationToken stop = default)
    {
        var found = RowJson.Read<Found>(await db.Database.SqlQueryRaw<string>(Question, agency).SingleAsync(stop));
        var calendar = new SchoolCalendar(
            Enumerable.Range(0, 7).Where(bit => (found.Agency.Weekdays >> bit & 1) == 1).Select(bit => (IsoDayOfWeek)(bit + 1)),
            found.Agency.WeekStart,
            found.Terms.Select(t => new Term(t.FirstDay, t.LastDay, t.Kind)),
            found.Closures.Select(c => new SpecialDay(c.OnDay, c.Kind)));
        return new(found.Agency, calendar, found.Periods, found.Policies);
    }

    private const string Question = """
        select jsonb_build_object(
            'agency', (select to_jsonb(a) from portal.agencies a where a.id = {0}),
            'terms', (select coalesce(jsonb_agg(t), '[]') from portal.terms t where t.agency_id = {0} and t.live),
            'closures', (select coalesce(jsonb_agg(c), '[]') from portal.closures c where c.agency_id = {0} and c.live),
            'periods', (select coalesce(jsonb_agg(p order by p.start_day), '[]') from portal.periods p where p.agency_id = {0} and p.live),
            'policies', (select coalesce(jsonb_agg(p order by p.from_day, p.id), '[]') from portal.policies p where p.agency_id = {0} and p.live))::text as "Value"
        """;

    private sealed record Found(AgencyRow Agency, List<TermRow> Terms, List<ClosureRow> Closures, List<PeriodRow> Periods, List<PolicyRow> Policies);

    private static Policies Dated(IReadOnlyList<PolicyRow> rows)
    {
        static Policy Of(PolicyRow row) => new(row.ShortWindow, row.Surplus, row.TolerancePercent, row.SessionShare);
        return rows.Count == 0
            ? new(Policy.Default)
            : new(Of(rows[0]), [.. rows.Skip(1).Select(r => (Day.Of(r.FromDay), Of(r)))]);
    }
}
