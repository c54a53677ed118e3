using NodaTime;

namespace TeamCircle.Core.Progress;

/// <summary>When a goal is mastered (docs/rules.md, part 13): a value at or past the target, on so many of the last so many days with data.</summary>
/// <param name="Days">k of "k of the last n days", from 1.</param>
/// <param name="OfLast">n, not less than <paramref name="Days"/>; the same number means k days in a row. Only days with counted points are days here.</param>
public sealed record Criterion(decimal Target, Better Better, int Days, int OfLast)
{
    /// <summary>Which data count; the others are passed over.</summary>
    public ProbeKind Counts { get; init; } = ProbeKind.Probe;

    /// <summary>A point with fewer opportunities does not hold, nor one of which nobody counted them; null asks for none.</summary>
    public int? FewestOpportunities { get; init; }

    /// <summary>How many different people the days that hold must include.</summary>
    public int People { get; init; } = 1;

    /// <summary>How many different places; 0 asks for none. A point that names no place is in none.</summary>
    public int Places { get; init; }

    /// <summary>Whether a value is at the target or past it.</summary>
    public bool IsReachedBy(decimal value) => Better == Better.Up ? value >= Target : value <= Target;

    /// <summary>Whether a point holds: its value and its opportunities.</summary>
    public bool Holds(GoalPoint point) => IsReachedBy(point.Value) && (FewestOpportunities is not { } fewest || point.Opportunities >= fewest);

    /// <summary>Days with counted points, oldest first. A day holds where all its counted points hold.</summary>
    public IReadOnlyList<CriterionDay> DaysOf(IEnumerable<GoalPoint> points) =>
        [.. points.Where(p => p.Kind == Counts).GroupBy(p => p.Day).OrderBy(g => g.Key).Select(g => new CriterionDay(g.Key, g.All(Holds), [.. g]))];

    /// <summary>The first day on which the criterion holds, or null.</summary>
    public LocalDate? FirstDay(IEnumerable<GoalPoint> points) => FirstDay(DaysOf(points));

    /// <summary>How far the last days are: how many of the last <see cref="OfLast"/> hold, by how many people, in how many places.</summary>
    public CriterionStanding Standing(IEnumerable<GoalPoint> points) => Standing([.. DaysOf(points).TakeLast(OfLast)]);

    /// <summary>The goal's way through mastery: each time it was mastered, what upkeep was due then, and what reopened it. Oldest first.</summary>
    /// <param name="upkeepWeeks">Weeks after mastery at which upkeep is looked at, ascending.</param>
    /// <remarks>A counted value short of the target after mastery reopens the goal, unless it was taken elsewhere (a new person, place or
    /// material); too few opportunities alone do not. Days from the one that reopened it count towards the next mastery.</remarks>
    public IReadOnlyList<Mastered> Course(IEnumerable<GoalPoint> points, IReadOnlyList<int> upkeepWeeks)
    {
        var course = new List<Mastered>();
        var days = DaysOf(points);
        while (FirstDay(days) is { } on)
        {
            days = [.. days.Where(d => d.Day > on)];
            var fell = days.Where(IsFall).Select(d => (LocalDate?)d.Day).FirstOrDefault();
            course.Add(new(on, fell, [.. Upkeep(on, fell, days, upkeepWeeks)]));
            if (fell is null)
                break;
            days = [.. days.Where(d => d.Day >= fell)];
        }
        return course;
    }

    private LocalDate? FirstDay(IReadOnlyList<CriterionDay> days)
    {
        for (var last = Days - 1; last < days.Count; last++)
        {
            if (Standing([.. days.Skip(last + 1 - OfLast).Take(Math.Min(OfLast, last + 1))]).IsMet)
                return days[last].Day;
        }
        return null;
    }

    private CriterionStanding Standing(CriterionDay[] window)
    {
        var held = window.Where(d => d.Holds).SelectMany(d => d.Points).ToList();
        var (people, places) = (held.Select(p => p.Person).Distinct().Count(), held.Select(p => p.Place).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Count());
        var days = window.Count(d => d.Holds);
        return new(days, window.Length, people, places, days >= Days && people >= People && places >= Places);
    }

    private bool IsFall(CriterionDay day) => day.Points.Any(p => p.Stage != Stage.Elsewhere && !IsReachedBy(p.Value));

    private static IEnumerable<UpkeepCheck> Upkeep(LocalDate mastered, LocalDate? fell, IReadOnlyList<CriterionDay> after, IReadOnlyList<int> weeks)
    {
        for (var i = 0; i < weeks.Count; i++)
        {
            var (due, next) = (mastered.PlusWeeks(weeks[i]), i + 1 < weeks.Count ? mastered.PlusWeeks(weeks[i + 1]) : LocalDate.MaxIsoValue);
            if (due > fell)
                yield break;
            yield return new(due, after.Where(d => d.Day >= due && d.Day < next && !(d.Day > fell)).Select(d => (LocalDate?)d.Day).FirstOrDefault());
        }
    }
}

/// <param name="Points">The counted points of the day.</param>
public sealed record CriterionDay(LocalDate Day, bool Holds, IReadOnlyList<GoalPoint> Points);

/// <summary>Where the last days with data stand against a criterion.</summary>
/// <param name="Days">Days that hold.</param>
/// <param name="Of">Days looked at: fewer than n where there are fewer.</param>
/// <param name="People">Different people over the days that hold.</param>
/// <param name="Places">Different places over them.</param>
public sealed record CriterionStanding(int Days, int Of, int People, int Places, bool IsMet);

/// <summary>One time that a goal was mastered.</summary>
/// <param name="ReopenedOn">The first day that fell short since; null while mastery stands.</param>
public sealed record Mastered(LocalDate On, LocalDate? ReopenedOn, IReadOnlyList<UpkeepCheck> Upkeep);

/// <summary>A look at whether a mastered skill is kept.</summary>
/// <param name="Done">The first day with counted data from the due day until the next check is due; null where there is none.</param>
public sealed record UpkeepCheck(LocalDate Due, LocalDate? Done);
