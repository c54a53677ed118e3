using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Closing;

/// <summary>An obstacle with what leads to the act that resolves it.</summary>
/// <param name="Visits">The visits that it is about, oldest first.</param>
/// <param name="Report">The progress report that it is about.</param>
public sealed record CountObstacle(Obstacle Obstacle, IReadOnlyList<CountVisit> Visits, int? Report = null);

/// <summary>A visit to look at.</summary>
public sealed record CountVisit(Guid Id, LocalDate OnDay, int ServiceId, int ProviderId);

/// <summary>Finds what stands in the way of closing a count, inside the transaction in which it was read; six statements.</summary>
internal static class ReadObstacles
{
    public static async Task<IReadOnlyList<CountObstacle>> RunAsync(PortalDb db, CountWork count, CancellationToken stop) =>
    [
        .. ByService(ObstacleKind.NotLogged, await NotLoggedAsync(db, count, stop)),
        .. ByService(ObstacleKind.NotConfirmed, await NotConfirmedAsync(db, count, stop)),
        .. ByService(ObstacleKind.NotCountersigned, await NotCountersignedAsync(db, count, stop)),
        .. await SetAsideAsync(db, count, stop),
        .. await ReportAsync(db, count, stop),
        .. count.Lines.SelectMany(Lacks).GroupBy(o => o.Key).Select(same => new CountObstacle(Together([.. same]), [])),
    ];

    private static (LocalDate First, LocalDate Last) Days(CountWork count) =>
        (count.Days.Start, LocalDate.Min(count.Days.End, count.AsOf.PlusDays(-1)));

    private static Task<List<CountVisit>> NotLoggedAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var (first, last) = Days(count);
        return db.Visits.Where(v => v.AgencyId == count.Rules.Agency.Id && v.LearnerId == count.LearnerId && v.Live && v.ServiceId != null
                && v.State == VisitState.Planned && v.OnDay >= first && v.OnDay <= last)
            .OrderBy(v => v.OnDay).ThenBy(v => v.StartTime).ThenBy(v => v.Id)
            .Select(v => new CountVisit(v.Id, v.OnDay, v.ServiceId!.Value, v.ProviderId)).ToListAsync(stop);
    }

    private static Task<List<CountVisit>> NotConfirmedAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var (first, last) = Days(count);
        return (
            from s in db.Sessions
            join v in db.Visits on new { s.AgencyId, s.LearnerId, Id = s.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
            where s.AgencyId == count.Rules.Agency.Id && s.LearnerId == count.LearnerId && s.Live && s.Outcome == VisitOutcome.Given && s.PartnerId != null
                && s.OnDay >= first && s.OnDay <= last
                && !db.Visits.Any(own => own.AgencyId == s.AgencyId && own.LearnerId == s.LearnerId && own.ProviderId == s.PartnerId
                    && own.OnDay == s.OnDay && own.TogetherNo == v.TogetherNo && own.Live && own.State == VisitState.Logged)
            orderby s.OnDay, s.StartTime, s.Id
            select new CountVisit(s.VisitId, s.OnDay, s.ServiceId, s.ProviderId)).ToListAsync(stop);
    }

    private static Task<List<CountVisit>> NotCountersignedAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var (first, last) = Days(count);
        return db.Sessions.Where(s => s.AgencyId == count.Rules.Agency.Id && s.LearnerId == count.LearnerId && s.Live && s.SupervisorId != null && s.CountersignedAt == null
                && s.OnDay >= first && s.OnDay <= last)
            .OrderBy(s => s.OnDay).ThenBy(s => s.StartTime).ThenBy(s => s.Id)
            .Select(s => new CountVisit(s.VisitId, s.OnDay, s.ServiceId, s.ProviderId)).ToListAsync(stop);
    }

    private static async Task<IEnumerable<CountObstacle>> SetAsideAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var waiting = await db.SetAsides.CountAsync(s => s.AgencyId == count.Rules.Agency.Id && s.LearnerId == count.LearnerId && s.ClosedAt == null, stop);
        return waiting == 0 ? [] : [new(new(ObstacleKind.SetAside, null, null, waiting, []), [])];
    }

    private static async Task<IEnumerable<CountObstacle>> ReportAsync(PortalDb db, CountWork count, CancellationToken stop)
    {
        var (first, last) = (count.Period.StartDay, count.Period.EndDay);
        var report = await db.Reports.Where(r => r.AgencyId == count.Rules.Agency.Id && r.LearnerId == count.LearnerId && r.PeriodId == count.Period.Id)
            .Select(r => new { r.Id, r.FinishedAt }).SingleOrDefaultAsync(stop);
        if (report is not null)
            return report.FinishedAt is null ? [new(new(ObstacleKind.ReportNotFinished, null, null, 1, []), [], report.Id)] : [];
        var hasGoals = await db.Goals.AnyAsync(g => g.AgencyId == count.Rules.Agency.Id && g.LearnerId == count.LearnerId && g.FromDay <= last && g.ToDay >= first, stop);
        return hasGoals ? [new(new(ObstacleKind.ReportNotBegun, null, null, 1, []), [])] : [];
    }

    private static IEnumerable<Obstacle> Lacks(CountLine line)
    {
        var (service, goal) = line.Line.IsProbes ? ((int?)null, (int?)line.Line.Id) : (line.Line.Id, null);
        var (minutes, sessions) = (line.Balance.Minutes.Undecided, line.Balance.Sessions.Undecided);
        if (minutes + sessions > 0)
        {
            var windows = line.Working.Closing.Where(w => w.Minutes.Undecided + w.Sessions.Undecided > 0);
            yield return new(ObstacleKind.Undecided, service, goal, minutes > 0 ? minutes : sessions, [.. windows.Select(w => Day.Date(w.Window.Days.First))]);
        }
        var toCheck = line.Balance.ToCheck;
        if (toCheck.Outside + toCheck.NamesNoWindow + toCheck.IgnoredDecisions > 0)
            yield return new(ObstacleKind.CountsNowhere, service, goal, toCheck.Outside + toCheck.NamesNoWindow + toCheck.IgnoredDecisions, []);
    }

    // A goal has a line for each owner and each kind of window.
    private static Obstacle Together(IReadOnlyList<Obstacle> same) =>
        same[0] with { Count = same.Sum(o => o.Count), Days = [.. same.SelectMany(o => o.Days).Distinct().Order()] };

    private static IEnumerable<CountObstacle> ByService(ObstacleKind kind, IEnumerable<CountVisit> visits) => visits.GroupBy(v => v.ServiceId)
        .Select(s => new CountObstacle(new(kind, s.Key, null, s.Count(), [.. s.Select(v => v.OnDay).Distinct()]), [.. s]));
}
