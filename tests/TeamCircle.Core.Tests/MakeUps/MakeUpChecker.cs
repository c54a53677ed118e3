using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

/// <summary>Holds a proposal to every rule of docs/rules.md, part 10, visit by visit and pair by pair. It shares no code with the
/// planner but the values that go in and come out.</summary>
internal static class MakeUpChecker
{
    /// <summary>What is broken, in words; empty where nothing is.</summary>
    public static List<string> BrokenRules(MakeUpProblem problem, MakeUpAnswer answer)
    {
        var visits = Visits(problem, answer.Visits);
        return [.. BrokenBy(problem, visits), .. Figures(problem, answer, visits)];
    }

    /// <summary>Whether visits break no rule.</summary>
    public static bool Allows(MakeUpProblem problem, IReadOnlyList<ProposedVisit> visits) => !BrokenBy(problem, Visits(problem, visits)).Any();

    /// <summary>Extra trips, visits, and positions of days, added up.</summary>
    public static int[] Costs(MakeUpProblem problem, IReadOnlyList<ProposedVisit> proposed)
    {
        var visits = Visits(problem, proposed);
        var trips = visits.Select(v => (v.Need.Provider, v.When.Day, v.Need.Place)).Distinct()
            .Count(t => !problem.Busy.Any(b => b.Provider == t.Provider && b.When.Day == t.Day && b.Place == t.Place));
        return [trips, visits.Count, visits.Sum(v => problem.Days.ToList().IndexOf(v.When.Day))];
    }

    private static List<Visit> Visits(MakeUpProblem problem, IReadOnlyList<ProposedVisit> visits) =>
        [.. visits.Select((v, i) => new Visit(i, problem.Needs[v.Need], v.Need, v.When))];

    private static IEnumerable<string> BrokenBy(MakeUpProblem problem, List<Visit> visits)
    {
        return visits.SelectMany(v => OfOne(problem, v))
            .Concat(from one in visits from other in visits where one.Index < other.Index from wrong in OfTwo(problem, one, other) select wrong)
            .Concat(problem.Needs.SelectMany((need, i) => OfNeed(problem, need, [.. visits.Where(v => v.NeedIndex == i)])))
            .Concat(DailyLimits(problem, visits));
    }

    private static IEnumerable<string> OfOne(MakeUpProblem problem, Visit visit)
    {
        var (need, when) = (visit.Need, visit.When);
        if (when.Start % problem.GridMinutes != 0 || when.Minutes % problem.GridMinutes != 0)
            yield return $"{visit} is off the grid";
        if (!problem.Days.Contains(when.Day))
            yield return $"{visit} lies on no day that is left";
        if (when.Minutes < need.Smallest || when.Minutes > need.Largest)
            yield return $"{visit} is not as long as a visit may be";
        if (!Within(problem.Providers.Single(p => p.Id == need.Provider), when))
            yield return $"{visit} lies outside the provider's hours";
        if (need.Learner is not null && !Within(problem.Learners.Single(p => p.Id == need.Learner), when))
            yield return $"{visit} lies outside the learner's hours";
        foreach (var busy in problem.Busy.Where(b => b.When.Day == when.Day))
        {
            if (busy.Line == need.Line)
                yield return $"{visit} is on a day that has a visit of its service";
            if (Overlap(busy.When, when) && (busy.Provider == need.Provider || (need.Learner is not null && busy.Learner == need.Learner)))
                yield return $"{visit} overlaps what stands on the calendar";
            if (busy.Provider == need.Provider && !CanTravel(problem, (busy.Place, busy.When), (need.Place, when)))
                yield return $"{visit} leaves no time to travel to or from the calendar's {busy.Place} at {busy.When.Start}";
        }
    }

    private static IEnumerable<string> OfTwo(MakeUpProblem problem, Visit one, Visit other)
    {
        if (one.When.Day != other.When.Day)
            yield break;
        if (one.Need.Line == other.Need.Line)
            yield return $"{one} and {other} are of one service on one day";
        if (Overlap(one.When, other.When) && (one.Need.Provider == other.Need.Provider || (one.Need.Learner is not null && one.Need.Learner == other.Need.Learner)))
            yield return $"{one} and {other} overlap";
        if (one.Need.Provider == other.Need.Provider && !CanTravel(problem, (one.Need.Place, one.When), (other.Need.Place, other.When)))
            yield return $"{one} and {other} leave no time to travel";
    }

    private static IEnumerable<string> OfNeed(MakeUpProblem problem, Need need, List<Visit> visits)
    {
        var rounded = need.Minutes % problem.GridMinutes == 0 ? need.Minutes : (need.Minutes / problem.GridMinutes * problem.GridMinutes) + problem.GridMinutes;
        if (visits.Sum(v => v.When.Minutes) > Math.Max(rounded, need.Smallest))
            yield return $"{need.Line} of {need.Window} gets more than it lacks";
    }

    private static IEnumerable<string> DailyLimits(MakeUpProblem problem, List<Visit> visits)
    {
        foreach (var day in problem.Days)
        {
            var today = visits.Where(v => v.When.Day == day).ToList();
            foreach (var (who, isProvider) in problem.Providers.Select(p => (p, true)).Concat(problem.Learners.Select(p => (p, false))))
            {
                var added = today.Where(v => (isProvider ? v.Need.Provider : v.Need.Learner) == who.Id).Select(v => v.When).ToList();
                var busy = problem.Busy.Where(b => b.When.Day == day && (isProvider ? b.Provider : b.Learner) == who.Id).Select(b => b.When);
                var taken = Enumerable.Range(0, DayTime.MinutesOfADay).Count(m => busy.Any(b => b.Start <= m && m < b.End));
                if (added.Count > 0 && taken + added.Sum(a => a.Minutes) > (who.DailyLimit ?? int.MaxValue))
                    yield return $"{who.Id} has more than {who.DailyLimit} minutes on day {day}";
            }
        }
    }

    private static IEnumerable<string> Figures(MakeUpProblem problem, MakeUpAnswer answer, List<Visit> visits)
    {
        var unmet = problem.Needs.Select((need, i) => Math.Max(0, need.Minutes - visits.Where(v => v.NeedIndex == i).Sum(v => v.When.Minutes))).ToList();
        int[] values = [unmet.Sum(), .. Costs(problem, answer.Visits)];
        if (!answer.Levels.Select(l => l.Value).SequenceEqual(values))
            yield return $"the levels say {string.Join(", ", answer.Levels.Select(l => l.Value))}, the visits {string.Join(", ", values)}";
        if (answer.Levels.Any(l => l.Bound > l.Value))
            yield return "a bound is above its value";
        var said = answer.Unmet.ToDictionary(u => u.Need, u => u.Minutes);
        for (var need = 0; need < unmet.Count; need++)
        {
            if (said.GetValueOrDefault(need) != unmet[need])
                yield return $"need {need} lacks {unmet[need]}, not {said.GetValueOrDefault(need)}";
        }
    }

    private static bool Within(Availability person, DayTime when) =>
        person.Hours.Any(h => h.Day == when.Day && h.Start <= when.Start && when.End <= h.End);

    private static bool Overlap(DayTime one, DayTime other) => one.Day == other.Day && one.Start < other.End && other.Start < one.End;

    private static bool CanTravel(MakeUpProblem problem, (string Place, DayTime When) one, (string Place, DayTime When) other)
    {
        var (first, second) = one.When.Start <= other.When.Start ? (one, other) : (other, one);
        return first.Place == second.Place || second.When.Start - first.When.End >= problem.Travel.Between(first.Place, second.Place);
    }

    private sealed record Visit(int Index, Need Need, int NeedIndex, DayTime When)
    {
        public override string ToString() => $"visit {Index} ({Need.Line}, day {When.Day}, {When.Start} to {When.End})";
    }
}
