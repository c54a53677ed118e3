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

    public static async Task<AgencyRules> ReadAsync(PortalDb db, int agency, CancellationToken stop = default)
    {
        var policies = await db.Policies.Where(p => p.AgencyId == agency).OrderBy(p => p.FromDay).ThenBy(p => p.Id).ToListAsync(stop);
        var rules = await WithoutPoliciesAsync(db, agency, stop);
        return new(rules.Agency, rules.Calendar, rules.Periods, policies);
    }

    /// <summary>The same for what asks for days and windows only; four statements.</summary>
    public static async Task<AgencyRules> WithoutPoliciesAsync(PortalDb db, int agency, CancellationToken stop = default)
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        var terms = await db.Terms.Where(t => t.AgencyId == agency).ToListAsync(stop);
        var closures = await db.Closures.Where(c => c.AgencyId == agency && c.Live).ToListAsync(stop);
        var periods = await db.Periods.Where(p => p.AgencyId == agency).OrderBy(p => p.StartDay).ToListAsync(stop);
        var calendar = new SchoolCalendar(
            Enumerable.Range(0, 7).Where(bit => (row.Weekdays >> bit & 1) == 1).Select(bit => (IsoDayOfWeek)(bit + 1)),
            row.WeekStart,
            terms.Select(t => new Term(t.FirstDay, t.LastDay, t.Kind)),
            closures.Select(c => new SpecialDay(c.OnDay, c.Kind)));
        return new(row, calendar, periods, []);
    }

    private static Policies Dated(IReadOnlyList<PolicyRow> rows)
    {
        static Policy Of(PolicyRow row) => new(row.ShortWindow, row.Surplus, row.TolerancePercent, row.SessionShare);
        return rows.Count == 0
            ? new(Policy.Default)
            : new(Of(rows[0]), [.. rows.Skip(1).Select(r => (Day.Of(r.FromDay), Of(r)))]);
    }
}
