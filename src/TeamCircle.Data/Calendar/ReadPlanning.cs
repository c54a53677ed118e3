using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Calendar;

/// <summary>What somebody can choose from when they schedule a visit.</summary>
/// <param name="Services">Services that run today or later, the reader's own first.</param>
/// <param name="Team">Who gives visits: colleagues only where the reader is case manager of the learner, and as partners.</param>
/// <param name="Places">The agency's list.</param>
public sealed record PlanningChoices(
    IReadOnlyList<PlanningLearner> Learners, IReadOnlyList<PlanningService> Services, IReadOnlyList<TeamMember> Team,
    IReadOnlyList<PlaceShown> Places, IReadOnlyList<PlanningRoutine> Routines)
{
    /// <summary>Awards of compensatory services that a single visit can be for.</summary>
    public IReadOnlyList<AwardChoice> Awards { get; init; } = [];
}

/// <param name="IsManaged">Whether the reader is the case manager, who plans for the whole team.</param>
public sealed record PlanningLearner(int Id, string Name, bool IsManaged);

public sealed record PlanningService(
    int Id, int LearnerId, string Learner, Discipline Discipline, Place Place, SessionFormat Format, CoTreatment CoTreatment, bool IsMine);

public sealed record PlaceShown(int Id, string Code, string Name, Place Kind, int Version);

public sealed record PlanningRoutine(int Id, int LearnerId, string Name);

/// <summary>Reads what can be chosen for a visit.</summary>
public sealed class ReadPlanning(Portal portal)
{
    public Task<PlanningChoices> RunAsync(Caller caller, CancellationToken stop = default)
    {
        int[] learners = [.. caller.Learners.Where(l => CalendarRules.MayPlan(caller, l, caller.PersonId))];
        return portal.ReadAsync(Scope.Of(caller), db => FindAsync(db, caller, learners, stop), stop);
    }

    private static async Task<PlanningChoices> FindAsync(PortalDb db, Caller caller, int[] learners, CancellationToken stop)
    {
        var (agency, today) = (caller.AgencyId, caller.Today);
        var names = await db.Learners.Where(l => l.AgencyId == agency && learners.Contains(l.Id)).OrderBy(l => l.Name)
            .Select(l => new { l.Id, l.Name }).ToListAsync(stop);
        var services = await (
            from s in db.Services
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            where s.AgencyId == agency && learners.Contains(s.LearnerId) && s.ToDay >= today
            orderby l.Name, s.Position
            select new PlanningService(s.Id, l.Id, l.Name, s.Discipline, s.Place, s.Format, s.CoTreatment,
                db.Assignments.Any(a => a.AgencyId == agency && a.ServiceId == s.Id && a.PersonId == caller.PersonId && a.ToDay >= today))).ToListAsync(stop);
        return new(
            [.. names.Select(n => new PlanningLearner(n.Id, n.Name, caller.Manages(n.Id)))],
            [.. services.OrderByDescending(s => s.IsMine)],
            await TeamMember.ReadAsync(db, agency, learners, today, stop),
            await db.Places.Where(p => p.AgencyId == agency && p.Live).OrderBy(p => p.Code)
                .Select(p => new PlaceShown(p.Id, p.Code, p.Name, p.Kind, p.Version)).ToListAsync(stop),
            await db.Routines.Where(r => r.AgencyId == agency && r.Live && learners.Contains(r.LearnerId)).OrderBy(r => r.Name)
                .Select(r => new PlanningRoutine(r.Id, r.LearnerId, r.Name)).ToListAsync(stop))
        {
            Awards = await LearnerAwards.ChoicesAsync(db, agency, learners, stop),
        };
    }
}
