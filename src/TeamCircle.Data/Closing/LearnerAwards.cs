using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Closing;

/// <summary>An award of compensatory services with the visits that name it, and its own balance.</summary>
/// <param name="Given">Up to the as-of day, oldest first; also what was offered and not taken up, with 0 minutes.</param>
/// <param name="Planned">From that day on, oldest first.</param>
public sealed record AwardOnRecord(AwardRow Row, AwardBalance Balance, IReadOnlyList<AwardVisitOnRecord> Given, IReadOnlyList<AwardVisitOnRecord> Planned);

public sealed record AwardVisitOnRecord(Guid Visit, LocalDate OnDay, int ProviderId, int Minutes);

/// <summary>An award that a visit can be for.</summary>
/// <param name="ServiceId">Null: any service of the discipline.</param>
public sealed record AwardChoice(int Id, int LearnerId, string Learner, AwardSource Source, AwardUnit Unit, int Amount, Discipline Discipline, int? ServiceId);

/// <summary>Reads a learner's awards that stand, as of a day.</summary>
internal static class LearnerAwards
{
    /// <summary>What visits of some learners can be for; by learner, oldest first.</summary>
    public static Task<List<AwardChoice>> ChoicesAsync(PortalDb db, int agency, IReadOnlyCollection<int> learners, CancellationToken stop) => (
        from a in db.Awards
        join l in db.Learners on new { a.AgencyId, Id = a.LearnerId } equals new { l.AgencyId, l.Id }
        where a.AgencyId == agency && learners.Contains(a.LearnerId) && a.Live
        orderby l.Name, a.FromDay, a.Id
        select new AwardChoice(a.Id, l.Id, l.Name, a.Source, a.Unit, a.Amount, a.Discipline, a.ServiceId)).ToListAsync(stop);

    /// <summary>Oldest first.</summary>
    public static async Task<IReadOnlyList<AwardOnRecord>> ReadAsync(PortalDb db, int agency, int learner, LocalDate asOf, CancellationToken stop)
    {
        var awards = await db.Awards.AsNoTracking().Where(a => a.AgencyId == agency && a.LearnerId == learner && a.Live)
            .OrderBy(a => a.FromDay).ThenBy(a => a.Id).ToListAsync(stop);
        if (awards.Count == 0)
            return [];
        var visits = await (
            from v in db.Visits
            where v.AgencyId == agency && v.LearnerId == learner && v.AwardId != null && v.Live && v.State != VisitState.CalledOff
            from s in db.Sessions.Where(s => s.AgencyId == agency && s.VisitId == v.Id && s.Live).DefaultIfEmpty()
            orderby v.OnDay, v.StartTime, v.Id
            select new { Award = v.AwardId!.Value, v.Id, v.OnDay, v.ProviderId, v.Minutes, Planned = v.State == VisitState.Planned, Outcome = (VisitOutcome?)s.Outcome, Credited = (int?)s.Credited })
            .ToListAsync(stop);
        return [.. awards.Select(award =>
        {
            var own = visits.Where(v => v.Award == award.Id).ToList();
            AwardVisitOnRecord[] given = [.. own.Where(v => v.Outcome is not null && v.Outcome != VisitOutcome.NotOffered && v.OnDay <= asOf)
                .Select(v => new AwardVisitOnRecord(v.Id, v.OnDay, v.ProviderId, v.Outcome == VisitOutcome.Given ? v.Credited ?? 0 : 0))];
            AwardVisitOnRecord[] planned = [.. own.Where(v => v.Planned && v.OnDay >= asOf).Select(v => new AwardVisitOnRecord(v.Id, v.OnDay, v.ProviderId, v.Minutes))];
            return new AwardOnRecord(award, AwardBalance.Of(award.Unit, award.Amount, Of(given), Of(planned), asOf), given, planned);
        })];
    }

    private static IEnumerable<AwardVisit> Of(IEnumerable<AwardVisitOnRecord> visits) => visits.Select(v => new AwardVisit(v.OnDay, v.Minutes));
}
