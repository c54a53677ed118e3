using TeamCircle.Core.MakeUps;

namespace TeamCircle.Benchmarks;

/// <summary>A random family of planning problems: 5 providers, 12 learners, a need of each pair, 15 days in three weeks.</summary>
/// <param name="Calendar">How likely each pair has a visit on the calendar on a day.</param>
/// <param name="Day">Hours of providers, from the first to the second minute of the day.</param>
/// <param name="Open">Hours in which a learner can be visited.</param>
/// <param name="ProviderLimit">Most minutes a day.</param>
/// <param name="LearnerLimit">Most minutes a day.</param>
/// <param name="Lack">Least and most minutes that a need lacks, in steps of 15.</param>
internal sealed record PlannerFamily(
    string Name, double Calendar, (int From, int To) Day, (int From, int To) Open, int ProviderLimit, int LearnerLimit, (int Least, int Most) Lack)
{
    private const int Learners = 12;
    private const int Providers = 5;
    private const int Days = 15;
    private const int Places = 11;

    public static IReadOnlyList<PlannerFamily> All { get; } =
    [
        new("roomy", 0.08, (8 * 60, 16 * 60), (8 * 60, 16 * 60), 360, 180, (30, 90)),
        new("crowded", 0.17, (8 * 60, 15 * 60 + 30), (9 * 60, 15 * 60), 330, 150, (45, 120)),
        new("limits bind", 0.14, (8 * 60, 14 * 60), (9 * 60, 13 * 60), 105, 60, (75, 120)),
    ];

    public MakeUpProblem Make(int seed)
    {
        var random = new Random(seed);
        var homes = Enumerable.Range(0, Learners).Select(l => $"home{l % Places}").ToArray();
        var travel = Travel(random);
        var providers = Enumerable.Range(0, Providers).Select(p => Person($"provider{p}", Day, ProviderLimit, random)).ToList();
        var learners = Enumerable.Range(0, Learners).Select(l => Person($"learner{l}", Open, LearnerLimit, random)).ToList();
        return new()
        {
            Days = WorkDays,
            GridMinutes = 15,
            Needs = [.. from l in Enumerable.Range(0, Learners)
                        from p in Enumerable.Range(0, Providers)
                        select new Need($"line{l}.{p}", WorkDays[0], $"learner{l}", $"provider{p}", homes[l], 15 * random.Next(Lack.Least / 15, Lack.Most / 15 + 1), 30, 60)],
            Providers = providers,
            Learners = learners,
            Busy = Standing(homes, travel, providers, learners, random),
            Travel = travel,
        };
    }

    private static IReadOnlyList<int> WorkDays { get; } = [.. Enumerable.Range(0, 21).Where(d => d % 7 < 5).Take(Days)];

    /// <summary>Places in a square of 40 by 40 minutes, 5 to 45 minutes apart.</summary>
    private static TravelTable Travel(Random random)
    {
        var at = Enumerable.Range(0, Places).Select(_ => (X: random.Next(40), Y: random.Next(40))).ToArray();
        return new([.. from a in Enumerable.Range(0, Places)
                       from b in Enumerable.Range(0, Places)
                       where a != b
                       let minutes = (int)Math.Sqrt(((at[a].X - at[b].X) * (at[a].X - at[b].X)) + ((at[a].Y - at[b].Y) * (at[a].Y - at[b].Y)))
                       select ($"home{a}", $"home{b}", Math.Clamp(minutes, 5, 45))]);
    }

    /// <summary>On one day in five somebody comes two hours later or goes two hours earlier.</summary>
    private static Availability Person(string id, (int From, int To) hours, int limit, Random random) => new(id, [.. WorkDays.Select(day => random.Next(10) switch
    {
        0 => new DayTime(day, hours.From + 120, hours.To),
        1 => new DayTime(day, hours.From, hours.To - 120),
        _ => new DayTime(day, hours.From, hours.To),
    })], limit);

    /// <summary>Visits of 30 or 45 minutes that break no rule, at the first time that fits after a random one.</summary>
    private List<BusyVisit> Standing(string[] homes, TravelTable travel, List<Availability> providers, List<Availability> learners, Random random)
    {
        var standing = new List<BusyVisit>();
        foreach (var day in WorkDays)
        {
            foreach (var (learner, provider) in from l in Enumerable.Range(0, Learners) from p in Enumerable.Range(0, Providers) select (l, p))
            {
                if (random.NextDouble() >= Calendar)
                    continue;
                var (from, length) = (random.Next(Open.From, Open.To - 60) / 5 * 5, random.Next(2) == 0 ? 30 : 45);
                var visit = new BusyVisit($"line{learner}.{provider}", $"provider{provider}", $"learner{learner}", homes[learner], new(day, from, from + length));
                if (Fits(visit, standing, travel, providers[provider], learners[learner]))
                    standing.Add(visit);
            }
        }
        return standing;
    }

    private static bool Fits(BusyVisit visit, List<BusyVisit> standing, TravelTable travel, Availability provider, Availability learner)
    {
        var (own, theirs) = (standing.Where(s => s.When.Day == visit.When.Day && s.Provider == visit.Provider).ToList(),
            standing.Where(s => s.When.Day == visit.When.Day && s.Learner == visit.Learner).ToList());
        return IsWithin(provider, visit) && IsWithin(learner, visit)
            && own.Sum(o => o.When.Minutes) + visit.When.Minutes <= provider.DailyLimit
            && theirs.Sum(o => o.When.Minutes) + visit.When.Minutes <= learner.DailyLimit
            && own.TrueForAll(o => IsApart(o, visit, travel.Between(o.Place, visit.Place)!.Value, travel.Between(visit.Place, o.Place)!.Value))
            && theirs.TrueForAll(o => IsApart(o, visit, 0, 0));
    }

    private static bool IsWithin(Availability person, BusyVisit visit) =>
        person.Hours.Any(h => h.Day == visit.When.Day && h.Start <= visit.When.Start && visit.When.End <= h.End);

    private static bool IsApart(BusyVisit one, BusyVisit other, int there, int back) =>
        one.When.End + there <= other.When.Start || other.When.End + back <= one.When.Start;
}
