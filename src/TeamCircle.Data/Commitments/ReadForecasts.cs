using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>What visits still planned are likely to bring, for lines that lack minutes. For staff only.</summary>
public sealed class Forecasts(IReadOnlyDictionary<(int Learner, int Provider), PastVisits> past)
{
    /// <summary>Null where nothing lacks, nobody is named, too few visits are known, or probes are counted.</summary>
    public LineForecast? Of(CommitmentLine line, Working working)
    {
        var asOf = working.At.AsOf;
        if (line.IsProbes || working.Balance.Minutes.Lack == 0 || asOf > working.At.Period.Last
            || line.Named.FirstOrDefault(n => n.Days.Last >= asOf) is not { PersonId: > 0 and var provider }
            || !past.TryGetValue((line.LearnerId, provider), out var visits) || !visits.AreEnough)
            return null;
        return new(visits, Forecast.Of(visits, ForecastWindow.Of(working)));
    }
}

/// <param name="Past">What it rests on: the visits of the named provider and the learner.</param>
public sealed record LineForecast(PastVisits Past, Forecast Forecast);

/// <summary>Reads how many of the visits of each provider and learner took place lately.</summary>
public sealed class ReadForecasts(Portal portal)
{
    /// <summary>No 60 school days in a row lie further apart, summer included.</summary>
    private const int DaysBack = 250;

    /// <param name="learners">Whom the page shows.</param>
    public Task<Forecasts> RunAsync(Scope scope, LocalDate asOf, IReadOnlyCollection<int> learners, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ReadAsync(db, scope.AgencyId, asOf, learners, stop), stop);

    private static async Task<Forecasts> ReadAsync(
        PortalDb db, int agency, LocalDate asOf, IReadOnlyCollection<int> learners, CancellationToken stop)
    {
        var school = (await AgencyRules.ReadAsync(db, agency, stop)).Calendar.For(LineTerms.Both);
        var first = FirstDay(school, Day.Of(asOf));
        var visits = await (
            from v in db.Visits
            where v.AgencyId == agency && learners.Contains(v.LearnerId) && v.OnDay >= first && v.OnDay < asOf && v.Live && v.Kind == VisitKind.Service && v.AwardId == null
                && (v.State == VisitState.Logged || (v.State == VisitState.CalledOff && v.AwayId == null))
            select new
            {
                v.LearnerId,
                v.ProviderId,
                v.OnDay,
                IsGiven = db.Sessions.Any(s => s.AgencyId == agency && s.VisitId == v.Id && s.Live && s.Outcome == VisitOutcome.Given),
            }).ToListAsync(stop);
        var aways = (await db.Aways.Where(a => a.AgencyId == agency && learners.Contains(a.LearnerId) && a.Live && a.FromDay < asOf).ToListAsync(stop))
            .ToLookup(a => a.LearnerId);
        return new(visits
            .Where(v => school.IsInstructional(Day.Of(v.OnDay)) && !aways[v.LearnerId].Any(a => a.FromDay <= v.OnDay && (a.UntilDay is null || a.UntilDay >= v.OnDay)))
            .GroupBy(v => (v.LearnerId, v.ProviderId)).ToDictionary(g => g.Key, g => new PastVisits(g.Count(), g.Count(v => v.IsGiven))));
    }

    private static LocalDate FirstDay(SchoolDays school, int asOf)
    {
        var (day, seen) = (asOf, 0);
        while (seen < PastVisits.Days && asOf - day < DaysBack)
            seen += school.IsInstructional(--day) ? 1 : 0;
        return Day.Date(day);
    }
}
