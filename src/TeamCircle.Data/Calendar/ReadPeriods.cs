using TeamCircle.Core.Calendar;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Calendar;

/// <summary>The agency's reporting periods, oldest first, and what the form for them begins on.</summary>
/// <param name="Gaps">School days between two periods: a window that closes there is judged in none.</param>
public sealed record PeriodsPage(IReadOnlyList<DatedListRow> Rows, string Stamp, IReadOnlyList<PeriodGap> Gaps);

/// <summary>Reads the agency's reporting periods.</summary>
public sealed class ReadPeriods(Portal portal)
{
    public Task<PeriodsPage> RunAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var rules = await AgencyRules.ReadAsync(db, scope.AgencyId, stop);
        return new PeriodsPage(
            [.. rules.Periods.Select(SetPeriods.Show)], SetPeriods.Stamp(rules.Periods),
            PeriodGaps.Find(rules.Calendar, rules.Periods.Select(p => DateRange.Of(p.StartDay, p.EndDay))));
    }, stop);
}
