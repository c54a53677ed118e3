using System.Data;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Progress;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;

namespace TeamCircle.Browser.Tests.Practice;

/// <summary>A routine of a learner of a test's own, planned at a visit of Tomasz's today, reviewed, and what the portal has of it.</summary>
internal sealed record PractisedRoutine(TomaszsLearner Of, RoutineRow Routine, RoutineVersionRow Version, VisitRow Visit)
{
    public const string Name = "Watering the herbs", Caution = "The pump runs on its battery only.", FirstPrompt = "Touch the can to her hand";

    private static int _visits;

    private static RoutineContent Card(int goal) => new()
    {
        Cue = "the small watering can",
        Say = "Water the herbs.",
        Position = "upright in the corner chair",
        Side = "right",
        Distance = "40 cm",
        Device = new("soft switch", "elbow", "left"),
        Cautions = [new("c1", CautionKind.PowerAndWater, Caution)],
        Procedure = PromptProcedure.LeastToMost,
        WaitSeconds = 12,
        Prompts = [new("p1", FirstPrompt), new("p2", "Guide the elbow", new(HandPlace.Under, "elbow", BodySide.Left, "stops when she pulls away"))],
        Steps = [new("show", StepKind.Shown, "Show the can", []), new("press", StepKind.Response, "She presses with her elbow", [goal])],
    };

    public static async Task<PractisedRoutine> AddAsync(PortalSite site)
    {
        var learner = await TomaszsLearner.AddAsync(site);
        var (agency, id) = (site.Portal.Agency, learner.Learner.Id);
        var number = Interlocked.Increment(ref _visits);
        // One after the other from half past midnight on: no other test plans a visit of Tomasz's before 8:00 on that day.
        var visit = await learner.VisitAsync(SampleTeam.Today, new LocalTime(0, 0).PlusMinutes(31 * number));
        var routine = await agency.AddAsync(new RoutineRow { LearnerId = id, Name = Name, ObjectCue = "the small watering can" });
        var version = await agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = id,
            RoutineId = routine.Id,
            Number = 1,
            Content = Card(learner.Goal.Id).Write(),
            WrittenBy = site.Portal.Team.Tomasz.Id,
            WrittenAt = Instant.FromUtc(2026, 9, 1, 12, 0),
        });
        await agency.AddAsync(new RoutineReviewRow
        {
            LearnerId = id,
            VersionId = version.Id,
            PersonId = site.Portal.Team.Priya.Id,
            Discipline = Discipline.PhysicalTherapy,
            ReviewedOn = new(2026, 9, 2),
        });
        await agency.AddAsync(new VisitRoutineRow { LearnerId = id, VisitId = visit.Id, RoutineId = routine.Id });
        return new(learner, routine, version, visit);
    }

    public Task<List<PracticeRow>> PracticesAsync() => ReadAsync(db => db.Practices.Where(p => p.RoutineId == Routine.Id).OrderBy(p => p.RecordedAt).ToListAsync());

    public Task<List<TrialRow>> TrialsAsync() => ReadAsync(db => db.Trials.Where(t => t.LearnerId == Of.Learner.Id).OrderBy(t => t.Id).ToListAsync());

    public Task<List<ProbeRow>> ProbesAsync() => ReadAsync(db => db.Probes.Where(p => p.GoalId == Of.Goal.Id).ToListAsync());

    private Task<T> ReadAsync<T>(Func<TeamCircle.Data.PortalDb, Task<T>> read) => Of.Site.Portal.Agency.Portal.ReadAsync(Of.Site.Portal.Agency.WholeAgency, read);
}
