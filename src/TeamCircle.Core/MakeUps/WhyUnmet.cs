namespace TeamCircle.Core.MakeUps;

/// <summary>Why minutes of a need stay unmet: one limit after the other is lifted for that need alone, all other visits staying where they are.</summary>
internal static class WhyUnmet
{
    /// <summary>Days that are far from all others, for "if there were more days".</summary>
    private const int MoreDays = 100_000;

    /// <summary>Minutes that stay unmet whatever is done: each need as if it were the only one.</summary>
    public static int LeastUnmet(Slots slots)
    {
        var byNeed = slots.All.ToLookup(s => s.Need);
        return slots.Problem.Needs.Select((need, i) => need.Minutes - MostMet(slots.Problem, need, byNeed[i])).Sum();
    }

    /// <summary>The limit that alone gives most when lifted; days only where no other does, since more days help nearly always.</summary>
    public static UnmetReason Of(Plan plan, int index)
    {
        var alone = Alone(plan, index);
        var need = alone.Needs[0];
        var met = need.Minutes - plan.Unmet(index);
        if (MostMet(alone) > met)
            return UnmetReason.SearchEnded;
        if (MostMet(Unlimited(need, alone.GridMinutes)) <= met)
            return UnmetReason.Lengths;
        var best = new[] { UnmetReason.ProviderHours, UnmetReason.ProviderDay, UnmetReason.LearnerHours, UnmetReason.LearnerDay, UnmetReason.Travel }
            .Select(reason => (Reason: reason, Met: MostMet(Without(reason, alone))))
            .MaxBy(lifted => lifted.Met);
        if (best.Met > met)
            return best.Reason;
        return MostMet(Without(UnmetReason.Days, alone)) > met ? UnmetReason.Days : UnmetReason.Several;
    }

    /// <summary>The need with all other proposed visits on the calendar.</summary>
    private static MakeUpProblem Alone(Plan plan, int index)
    {
        var problem = plan.Slots.Problem;
        var others = plan.Visits.Where(v => v.Slot.Need != index).Select(v => Standing(problem, v));
        return problem with { Needs = [problem.Needs[index]], Busy = [.. problem.Busy, .. others] };
    }

    private static BusyVisit Standing(MakeUpProblem problem, Placed visit)
    {
        var need = problem.Needs[visit.Slot.Need];
        var when = new DayTime(problem.Days[visit.Slot.Day], visit.Start * problem.GridMinutes, visit.End * problem.GridMinutes);
        return new(need.Line, need.Provider, need.Learner, need.Place, when);
    }

    private static int MostMet(MakeUpProblem ofOneNeed) => MostMet(ofOneNeed, ofOneNeed.Needs[0], new Slots(ofOneNeed).All);

    /// <summary>The most minutes of one need that visits can bring, each day having one of any length that fits.</summary>
    private static int MostMet(MakeUpProblem problem, Need need, IEnumerable<Slot> slots)
    {
        var reached = new bool[problem.MostSteps(need) + 1];
        reached[0] = true;
        foreach (var slot in slots)
        {
            for (var sum = reached.Length - 1; sum >= slot.Least; sum--)
            {
                for (var length = slot.Least; length <= Math.Min(slot.Most, sum); length++)
                    reached[sum] |= reached[sum - length];
            }
        }
        return Math.Min(need.Minutes, Array.LastIndexOf(reached, true) * problem.GridMinutes);
    }

    private static MakeUpProblem Without(UnmetReason limit, MakeUpProblem problem) => limit switch
    {
        UnmetReason.ProviderHours => problem with { Providers = [.. problem.Providers.Select(p => AtAnyHour(p, problem.Days))] },
        UnmetReason.ProviderDay => problem with { Providers = [.. problem.Providers.Select(p => p with { DailyLimit = null })] },
        UnmetReason.LearnerHours => problem with { Learners = [.. problem.Learners.Select(p => AtAnyHour(p, problem.Days))] },
        UnmetReason.LearnerDay => problem with { Learners = [.. problem.Learners.Select(p => p with { DailyLimit = null })] },
        UnmetReason.Travel => problem with { Travel = TravelTable.None },
        _ => problem with
        {
            Days = [.. problem.Days, .. problem.Days.Select(d => d + MoreDays)],
            Providers = [.. problem.Providers.Select(Again)],
            Learners = [.. problem.Learners.Select(Again)],
        },
    };

    /// <summary>As many days as there are minutes, all of them free.</summary>
    private static MakeUpProblem Unlimited(Need need, int grid)
    {
        int[] days = [.. Enumerable.Range(0, (need.Minutes + grid - 1) / grid)];
        return new()
        {
            Days = days,
            GridMinutes = grid,
            Needs = [need],
            Providers = [AtAnyHour(new(need.Provider, [], null), days)],
            Learners = need.Learner is { } learner ? [AtAnyHour(new(learner, [], null), days)] : [],
            Busy = [],
            Travel = TravelTable.None,
        };
    }

    private static Availability AtAnyHour(Availability person, IReadOnlyList<int> days) =>
        person with { Hours = [.. days.Select(d => new DayTime(d, 0, DayTime.MinutesOfADay))] };

    private static Availability Again(Availability person) =>
        person with { Hours = [.. person.Hours, .. person.Hours.Select(h => h with { Day = h.Day + MoreDays })] };
}
