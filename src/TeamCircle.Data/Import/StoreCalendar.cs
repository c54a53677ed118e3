using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Import;

/// <summary>Stores the agency's own settings, terms, reporting periods and closures.</summary>
internal sealed class StoreCalendar(ImportDesk desk)
{
    /// <summary>The first policy holds for all days before a later one.</summary>
    private static readonly LocalDate Ever = new(1900, 1, 1);

    public async Task RunAsync(FolderReading reading, CancellationToken stop)
    {
        if (reading.Agency is not null)
            await AgencyAsync(reading.Agency, stop);
        if (reading.Terms.Count > 0)
            await TermsAsync(reading.Terms, stop);
        if (reading.Periods.Count > 0)
            await PeriodsAsync(reading.Periods, stop);
        if (reading.Closures.Count > 0)
            await ClosuresAsync(reading.Closures, stop);
        await desk.SaveAsync(stop);
    }

    private async Task AgencyAsync(AgencyLine line, CancellationToken stop)
    {
        var agency = await desk.Db.Agencies.SingleAsync(a => a.Id == desk.Agency, stop);
        (agency.Name, agency.Weekdays, agency.WeekStart) = (line.Name, line.Weekdays, line.WeekStart);
        // Visits on the calendar would be left behind: a zone changes in the settings, where they come along.
        if (agency.TimeZone != line.TimeZone && await desk.Db.Visits.AnyAsync(v => v.AgencyId == desk.Agency, stop))
            desk.Refuse("agency.json", 1, "timeZone", "The agency's time zone is another one, and there are visits. An administrator changes the zone in the settings.");
        else
            agency.TimeZone = line.TimeZone;
        if (!await desk.Db.Policies.AnyAsync(p => p.AgencyId == desk.Agency, stop))
        {
            var policy = line.Policy;
            desk.Add(new PolicyRow
            {
                FromDay = Ever,
                ShortWindow = policy.ShortWindow,
                Surplus = policy.Surplus,
                TolerancePercent = policy.TolerancePercent,
                SessionShare = policy.SessionShare,
            });
        }
        desk.Count("agency.json", 1, agency);
    }

    private async Task TermsAsync(IReadOnlyList<TermLine> lines, CancellationToken stop)
    {
        var known = await desk.Db.Terms.Where(t => t.AgencyId == desk.Agency).ToListAsync(stop);
        foreach (var line in lines)
        {
            var row = known.Find(t => t.Name == line.Name) ?? desk.Add(new TermRow { Name = line.Name });
            (row.FirstDay, row.LastDay, row.Kind) = (line.FirstDay, line.LastDay, line.Kind);
            desk.Count(line.File, line.Line, row);
        }
    }

    private async Task PeriodsAsync(IReadOnlyList<PeriodLine> lines, CancellationToken stop)
    {
        var known = await desk.Db.Periods.Where(p => p.AgencyId == desk.Agency).ToListAsync(stop);
        foreach (var line in lines)
        {
            var row = known.Find(p => p.Name == line.Name) ?? desk.Add(new PeriodRow { Name = line.Name });
            (row.StartDay, row.EndDay) = (line.Start, line.End);
            desk.Count(line.File, line.Line, row);
        }
    }

    private async Task ClosuresAsync(IReadOnlyList<ClosureLine> lines, CancellationToken stop)
    {
        var known = await desk.Db.Closures.Where(c => c.AgencyId == desk.Agency && c.Live).ToDictionaryAsync(c => c.OnDay, stop);
        foreach (var line in lines)
        {
            if (!known.TryGetValue(line.Date, out var row))
                known[line.Date] = row = desk.Add(new ClosureRow { OnDay = line.Date, Name = line.Name });
            (row.Name, row.Kind) = (line.Name, line.Kind);
            desk.Count(line.File, line.Line, row);
        }
    }
}
