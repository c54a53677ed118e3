using NodaTime;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Browser.Tests.Sessions;

/// <summary>A learner of a test's own, with whom Tomasz works: what is recorded here is on nobody else's page.</summary>
internal sealed record TomaszsLearner(PortalSite Site, LearnerRow Learner, ServiceRow Service, GoalRow Goal)
{
    private static readonly LocalDate Begin = new(2026, 8, 17), End = new(2027, 5, 28);

    private static int _learners;

    public static async Task<TomaszsLearner> AddAsync(PortalSite site)
    {
        var (agency, tomasz, number) = (site.Portal.Agency, site.Portal.Team.Tomasz, Interlocked.Increment(ref _learners));
        var learner = await agency.AddAsync(new LearnerRow { Code = $"TF-9{number:00}", Name = $"Ilse Corvane {number}", MostMinutesADay = 120 });
        await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = tomasz.Id, Kind = Relation.Team, FromDay = Begin });
        await agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = site.Portal.Team.Marisol.Id, Kind = Relation.CaseManager, FromDay = Begin });
        var plan = await agency.AddAsync(new PlanRow { LearnerId = learner.Id, StartDay = Begin, EndDay = End });
        var service = await agency.AddAsync(new ServiceRow
        {
            LearnerId = learner.Id,
            PlanId = plan.Id,
            Code = $"AT-9{number:00}",
            Discipline = Discipline.AssistiveTechnology,
            EveryUnit = EveryUnit.Week,
            FromDay = Begin,
            ToDay = End,
        });
        await agency.AddAsync(new ServiceVersionRow { LearnerId = learner.Id, ServiceId = service.Id, Code = service.Code, FromDay = Begin, Quantity = 30 });
        await agency.AddAsync(new AssignmentRow { LearnerId = learner.Id, ServiceId = service.Id, PersonId = tomasz.Id, FromDay = Begin, ToDay = End });
        var goal = await agency.AddAsync(new GoalRow
        {
            LearnerId = learner.Id,
            PlanId = plan.Id,
            Code = $"G-9{number:00}",
            Area = "Switch",
            Statement = "Presses the switch with the elbow within the wait.",
            FromDay = Begin,
            ToDay = End,
        });
        await agency.AddAsync(new ProbeCommitmentRow { LearnerId = learner.Id, GoalId = goal.Id, FromDay = Begin, Probes = 1, EveryUnit = EveryUnit.Week });
        await agency.AddAsync(new GoalOwnerRow { LearnerId = learner.Id, GoalId = goal.Id, PersonId = tomasz.Id, FromDay = Begin, ToDay = End });
        return new(site, learner, service, goal);
    }

    /// <summary>A scheduled visit of 30 minutes at 9:00; a day of September that no other test takes.</summary>
    public Task<VisitRow> VisitAsync(int day) => VisitAsync(new(2026, 9, day), new(9, 0));

    /// <summary>A scheduled visit of 30 minutes at a time that no other test takes.</summary>
    public Task<VisitRow> VisitAsync(LocalDate day, LocalTime start)
    {
        var visit = new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = Learner.Id,
            ServiceId = Service.Id,
            ProviderId = Site.Portal.Team.Tomasz.Id,
            Zone = "America/Los_Angeles",
            LearnersTime = true,
        };
        visit.TakePlace(day, start, 30);
        return Site.Portal.Agency.AddAsync(visit);
    }
}
