using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Closing;

/// <summary>
/// Holds a change of the calendar to the rule that a closed count never changes: a window that closes in a closed period
/// may reach over its end, so that a day outside the period bears on it too. What closed counts owe is worked out before
/// and after the change, in the same transaction.
/// </summary>
internal sealed class KeepClosedFigures
{
    private readonly PortalDb _db;
    private readonly RowFilter _rows;
    private readonly LocalDate _today;
    private readonly HashSet<(int Learner, int Period)> _closed;
    private readonly AllStandings? _before;

    private KeepClosedFigures(PortalDb db, RowFilter rows, LocalDate today, HashSet<(int, int)> closed, AllStandings? before) =>
        (_db, _rows, _today, _closed, _before) = (db, rows, today, closed, before);

    public static async Task<KeepClosedFigures> BeginAsync(PortalDb db, int agency, LocalDate today, CancellationToken stop)
    {
        var closed = await db.LearnerPeriods.Where(l => l.AgencyId == agency && l.ClosedAt != null)
            .Select(l => new { l.LearnerId, l.PeriodId }).ToListAsync(stop);
        var rows = new RowFilter(agency, [.. closed.Select(c => c.LearnerId).Distinct()]);
        var before = closed.Count == 0 ? null : await AllStandings.ReadAsync(db, rows, today, stop);
        return new(db, rows, today, [.. closed.Select(c => (c.LearnerId, c.PeriodId))], before);
    }

    /// <summary>Saves what was changed so far; a problem where a closed count would come out otherwise.</summary>
    public async Task<Problem?> CheckAsync(CancellationToken stop)
    {
        if (_before is null)
            return null;
        await _db.SaveChangesAsync(stop);
        var after = await AllStandings.ReadAsync(_db, _rows, _today, stop);
        for (var period = 0; period < _before.Periods.Count; period++)
        {
            for (var line = 0; line < _before.Lines.Count; line++)
            {
                var (was, becomes) = (_before.Of(period, line), after.Of(period, line));
                if (was with { Status = becomes.Status } != becomes && _closed.Contains((_before.Lines[line].LearnerId, _before.Periods[period].Id)))
                    return new("", $"A week or month that counts in \"{_before.Periods[period].Name}\" reaches to that day, and that count is closed. Nothing that counts in it can change until it is restated.");
            }
        }
        return null;
    }
}
