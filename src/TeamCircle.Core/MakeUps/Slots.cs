namespace TeamCircle.Core.MakeUps;

/// <summary>A stretch of a day, in steps of the grid from midnight; <paramref name="End"/> no longer belongs to it.</summary>
internal readonly record struct Gap(int Start, int End)
{
    public int Length => End - Start;
}

/// <summary>A day on which a need could have a visit.</summary>
/// <param name="Need">Position of the need.</param>
/// <param name="Day">Position of the day.</param>
/// <param name="Gaps">Free stretches that hold a visit, none inside another; a visit lies wholly in one of them.</param>
/// <param name="Least">Shortest visit in steps.</param>
/// <param name="Most">Longest visit in steps that fits, as far as the calendar alone says.</param>
internal sealed record Slot(int Need, int Day, IReadOnlyList<Gap> Gaps, int Least, int Most)
{
    public int FirstStart => Gaps[0].Start;

    public int LastEnd => Gaps.Max(g => g.End);

    public int LastStart => Gaps.Max(g => g.End) - Least;
}

/// <summary>A visit in a slot, in steps.</summary>
internal readonly record struct Placed(Slot Slot, int Start, int Length)
{
    public int End => Start + Length;
}

/// <summary>Where visits can lie at all: what stands on the calendar has vanished into gaps and into what is left of daily limits.</summary>
internal sealed class Slots
{
    private readonly ILookup<(string, int), DayTime> _providerHours;
    private readonly ILookup<(string, int), DayTime> _learnerHours;
    private readonly ILookup<(string, int), BusyVisit> _providerBusy;
    private readonly ILookup<(string?, int), BusyVisit> _learnerBusy;
    private readonly Dictionary<string, int?> _providerLimit;
    private readonly Dictionary<string, int?> _learnerLimit;
    private readonly HashSet<(string, int)> _lineDays;
    private readonly HashSet<(string, int, string)> _driven;

    public Slots(MakeUpProblem problem)
    {
        Problem = problem;
        _providerHours = HoursByDay(problem.Providers);
        _learnerHours = HoursByDay(problem.Learners);
        _providerBusy = problem.Busy.ToLookup(b => (b.Provider, b.When.Day));
        _learnerBusy = problem.Busy.ToLookup(b => (b.Learner, b.When.Day));
        _providerLimit = problem.Providers.ToDictionary(p => p.Id, p => p.DailyLimit);
        _learnerLimit = problem.Learners.ToDictionary(p => p.Id, p => p.DailyLimit);
        _lineDays = [.. problem.Busy.Where(b => b.Line is not null).Select(b => (b.Line!, b.When.Day))];
        _driven = [.. problem.Busy.Select(b => (b.Provider, b.When.Day, b.Place))];
        All = [.. Enumerable.Range(0, problem.Needs.Count).SelectMany(OfNeed)];
    }

    public MakeUpProblem Problem { get; }

    /// <summary>By need and day.</summary>
    public IReadOnlyList<Slot> All { get; }

    public Need Need(Slot slot) => Problem.Needs[slot.Need];

    /// <summary>Whether a visit there is on a way that the provider goes anyway.</summary>
    public bool IsDriven(Slot slot) => _driven.Contains((Need(slot).Provider, Problem.Days[slot.Day], Need(slot).Place));

    /// <summary>What is left of the provider's day, in steps.</summary>
    public int ProviderLeft(string provider, int day) => Left(_providerLimit[provider], _providerBusy[(provider, Problem.Days[day])]);

    /// <summary>What is left of the learner's day, in steps.</summary>
    public int LearnerLeft(string learner, int day) => Left(_learnerLimit[learner], _learnerBusy[(learner, Problem.Days[day])]);

    /// <summary>Travel from one slot's place to another's, in steps, rounded up.</summary>
    public int Travel(Slot from, Slot to) => Problem.StepsUp(Minutes(Need(from).Place, Need(to).Place));

    private static ILookup<(string, int), DayTime> HoursByDay(IEnumerable<Availability> people) =>
        people.SelectMany(p => p.Hours.Select(h => (p.Id, Hours: h))).ToLookup(h => (h.Id, h.Hours.Day), h => h.Hours);

    private IEnumerable<Slot> OfNeed(int need) =>
        Enumerable.Range(0, Problem.Days.Count).Select(day => On(need, day)).OfType<Slot>();

    private Slot? On(int index, int day)
    {
        var need = Problem.Needs[index];
        if (_lineDays.Contains((need.Line, Problem.Days[day])) || Problem.Refused.Contains((need.Line, need.Window, Problem.Days[day])))
            return null;
        var least = Problem.StepsUp(need.Smallest);
        var gaps = WithoutInner([.. Free(need, Problem.Days[day]).Select(Inward).Where(g => g.Length >= least)]);
        if (gaps.Count == 0)
            return null;
        var most = Math.Min(need.Largest / Problem.GridMinutes, Problem.MostSteps(need));
        most = Math.Min(Math.Min(most, gaps.Max(g => g.Length)), ProviderLeft(need.Provider, day));
        if (need.Learner is { } learner)
            most = Math.Min(most, LearnerLeft(learner, day));
        return most >= least ? new(index, day, gaps, least, most) : null;
    }

    /// <summary>Where both have hours and nothing stands, with time to travel to and from what stands.</summary>
    private List<(int Start, int End)> Free(Need need, int day)
    {
        var free = _providerHours[(need.Provider, day)].Select(h => (h.Start, h.End)).ToList();
        if (need.Learner is { } learner)
        {
            free = [.. from mine in free
                       from theirs in _learnerHours[(learner, day)]
                       let both = (Start: Math.Max(mine.Start, theirs.Start), End: Math.Min(mine.End, theirs.End))
                       where both.Start < both.End
                       select both];
            foreach (var busy in _learnerBusy[(learner, day)])
                free = Without(free, busy.When.Start, busy.When.End);
        }
        foreach (var busy in _providerBusy[(need.Provider, day)])
            free = Without(free, busy.When.Start - Minutes(need.Place, busy.Place), busy.When.End + Minutes(busy.Place, need.Place));
        return free;
    }

    private static List<(int Start, int End)> Without(List<(int Start, int End)> free, int start, int end)
    {
        var rest = new List<(int, int)>();
        foreach (var stretch in free)
        {
            if (end <= stretch.Start || start >= stretch.End)
                rest.Add(stretch);
            else
            {
                if (stretch.Start < start)
                    rest.Add((stretch.Start, start));
                if (end < stretch.End)
                    rest.Add((end, stretch.End));
            }
        }
        return rest;
    }

    private static List<Gap> WithoutInner(List<Gap> gaps)
    {
        var outer = new List<Gap>();
        foreach (var gap in gaps.OrderBy(g => g.Start).ThenByDescending(g => g.End))
        {
            if (outer.Count == 0 || gap.End > outer[^1].End)
                outer.Add(gap);
        }
        return outer;
    }

    private Gap Inward((int Start, int End) free) => new(Problem.StepsUp(free.Start), free.End / Problem.GridMinutes);

    private int Minutes(string from, string to) =>
        Problem.Travel.Between(from, to) ?? throw new ArgumentException("The travel table has no way between two places of one provider.");

    /// <summary>A group visit stands once for each learner, and counts once.</summary>
    private int Left(int? limit, IEnumerable<BusyVisit> busy)
    {
        if (limit is not { } most)
            return DayTime.MinutesOfADay / Problem.GridMinutes;
        var (taken, until) = (0, 0);
        foreach (var when in busy.Select(b => b.When).OrderBy(w => w.Start))
        {
            taken += Math.Max(0, when.End - Math.Max(until, when.Start));
            until = Math.Max(until, when.End);
        }
        return Math.Max(0, most - taken) / Problem.GridMinutes;
    }
}
