using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Progress;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>What the demonstration's goals hold beside what files bring: one of Wren's with forty probes by three people, under conditions, before
/// teaching and since; what the owners wrote; what changed.</summary>
internal sealed class DemonstrationGoals(PortalDb db, int agency, SchoolYear year)
{
    // How many of the eight without help, week by week; - is a week without a probe. In the eighth week nobody came to it.
    private static readonly (string By, IsoDayOfWeek On, string Position, string Place, string WithoutHelp)[] Looks =
    [
        (Odalys, IsoDayOfWeek.Monday, "in her chair", "living room", "1212323-343454"),
        (Marisol, IsoDayOfWeek.Thursday, "in her chair", "kitchen", "1121232-334545"),
        (Priya, IsoDayOfWeek.Friday, "on her side", "living room", "2122-32-434345"),
    ];

    // Looking while she is taught, once a week by the one who sees her most; and twice somewhere new.
    private const string WhileTaught = "---334-444-5--", SomewhereNew = "-----------23-";

    public async Task AddAsync(CancellationToken stop)
    {
        var goals = await db.Goals.Where(g => g.AgencyId == agency).ToDictionaryAsync(g => g.Code, stop);
        var people = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
        var looks = goals["TF07-LOOKS"];
        foreach (var (by, on, position, place, values) in Looks)
            AddProbes(looks, people[by], on, values, (week, probe) => (probe.Position, probe.Place, probe.Side) = (position, place, week % 2 == 0 ? "left" : "right"));
        AddProbes(looks, people[Odalys], IsoDayOfWeek.Wednesday, WhileTaught, (_, probe) => (probe.Kind, probe.Position, probe.Place) = (ProbeKind.Teaching, "in her chair", "living room"));
        AddProbes(looks, people[Odalys], IsoDayOfWeek.Tuesday, SomewhereNew, (_, probe) => (probe.Stage, probe.Position, probe.Place) = (Stage.Elsewhere, "in her chair", "grandmother's house"));
        Describe(looks);
        (goals["TF07-PRESSES"].TeachingFrom, goals["TF07-PRESSES"].CriterionPeople) = (TeachingFrom, 2);
        goals["TF19-CHOOSES"].Chance = 50;
        Change(looks, year.On(6, IsoDayOfWeek.Monday), GoalChangeKind.Teaching, "The lamp stands behind her, and one thing at a time on the black cloth", people[Odalys]);
        Change(looks, year.On(9, IsoDayOfWeek.Monday), GoalChangeKind.Target, GoalChanges.OfTarget((62.5m, year.LastDay), (75, year.LastDay))!, people[Marisol]);
        Change(goals["TF07-PRESSES"], LastSchoolDay, GoalChangeKind.Teaching, "The switch sits a finger's width closer", people[Tomasz]);
        await db.SaveChangesAsync(stop);
    }

    /// <summary>The last weekday before today: news for whoever was there before it.</summary>
    private LocalDate LastSchoolDay => year.Today.DayOfWeek switch
    {
        IsoDayOfWeek.Monday => year.Today.PlusDays(-3),
        IsoDayOfWeek.Sunday => year.Today.PlusDays(-2),
        _ => year.Today.PlusDays(-1),
    };

    private LocalDate TeachingFrom => year.On(DemonstrationProbes.TeachingFrom, IsoDayOfWeek.Monday);

    private void AddProbes(GoalRow goal, int by, IsoDayOfWeek on, string withoutHelp, Action<int, ProbeRow> with)
    {
        foreach (var (week, value) in withoutHelp.Index().Where(w => w.Item != '-'))
        {
            var count = value - '0';
            var probe = new ProbeRow
            {
                AgencyId = agency,
                Id = Guid.CreateVersion7(),
                LearnerId = goal.LearnerId,
                GoalId = goal.Id,
                ProviderId = by,
                OnDay = year.On(week, on),
                Value = count * 100m / DemonstrationProbes.Opportunities,
                Opportunities = DemonstrationProbes.Opportunities,
                Stage = week < DemonstrationProbes.TeachingFrom ? Stage.BeforeTeaching : Stage.DuringTeaching,
                State = count == 1 ? StateOfLearner.Drowsy : week % 3 == 0 ? StateOfLearner.ActiveAlert : StateOfLearner.QuietAlert,
                FromFile = true,
                RecordedBy = by,
            };
            with(week, probe);
            db.Add(probe);
        }
    }

    private void Describe(GoalRow goal)
    {
        goal.TeachingFrom = TeachingFrom;
        goal.Conditions = "Quiet or active alert, in her chair, one thing at a time on the black cloth";
        (goal.PresentDay, goal.PresentConditions, goal.PresentSource) = (year.PlanStart, "in her chair, by the window", "plan, page 4");
        (goal.CriterionFewest, goal.CriterionPeople) = (DemonstrationProbes.Opportunities, 2);
    }

    private void Change(GoalRow goal, LocalDate day, GoalChangeKind kind, string words, int by) => db.Add(new GoalChangeRow
    {
        AgencyId = agency,
        LearnerId = goal.LearnerId,
        GoalId = goal.Id,
        OnDay = day,
        Kind = kind,
        Words = words,
        RecordedBy = by,
    });
}
