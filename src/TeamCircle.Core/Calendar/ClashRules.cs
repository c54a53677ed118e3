using System.Globalization;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>What stands against a visit on one day. Some refuse it; others a person may confirm.</summary>
/// <remarks>Docs/rules.md, part 1a. The database refuses the first three on its own as well (docs/decisions/0013): what is said here is
/// said early and in words.</remarks>
public static class ClashRules
{
    /// <summary>All clashes, in the order of <see cref="ClashKind"/>; none where the visit fits.</summary>
    public static IReadOnlyList<Clash> Find(PlannedTime visit, DayFacts day) =>
        [.. Person(visit, day), .. Learner(visit, day), .. Travel(visit, day), .. Dates(visit, day), .. Confirmed(visit, day)];

    private static IEnumerable<Clash> Person(PlannedTime visit, DayFacts day) =>
        from taken in day.OfProvider
        where !taken.MayShare && Meet(visit, taken)
        select new Clash(ClashKind.PersonTwice, visit.On, $"{day.Provider} is taken from {ClockWords.Times(taken.Start, taken.End)}.");

    private static IEnumerable<Clash> Learner(PlannedTime visit, DayFacts day) =>
        from taken in day.OfLearner
        where visit.IsLearnersTime && !taken.MayShare && Meet(visit, taken)
        select new Clash(ClashKind.LearnerTwice, visit.On, $"The learner has a visit with {taken.With} from {ClockWords.Times(taken.Start, taken.End)}.");

    private static IEnumerable<Clash> Travel(PlannedTime visit, DayFacts day)
    {
        foreach (var other in day.OfProvider.Where(o => !Meet(visit, o) && o.Place is not null && visit.Place is not null && o.Place != visit.Place))
        {
            var isBefore = other.End <= visit.Start;
            var gap = isBefore ? Minutes(other.End, visit.Start) : Minutes(visit.End, other.Start);
            var needs = isBefore ? day.Travel(other.Place!, visit.Place!) : day.Travel(visit.Place!, other.Place!);
            if (needs > gap)
                yield return new(ClashKind.Travel, visit.On, string.Create(CultureInfo.InvariantCulture,
                    $"{day.Provider} needs {needs} minutes {(isBefore ? $"from {other.Place} to here" : $"from here to {other.Place}")} and has {gap}."));
        }
    }

    private static IEnumerable<Clash> Dates(PlannedTime visit, DayFacts day)
    {
        if (day.AwayUntil is { } away)
            yield return new(ClashKind.Away, visit.On, $"The learner is away {away}.");
        if (day.Service is { } dates && !visit.IsMakeUp && !dates.Holds(Day.Of(visit.On)))
            yield return new(ClashKind.OutsideService, visit.On, "The day lies outside the dates of the service.");
    }

    private static IEnumerable<Clash> Confirmed(PlannedTime visit, DayFacts day)
    {
        if (!day.IsSchoolDay)
            yield return new(ClashKind.ClosedDay, visit.On, day.ClosedBy is { } name ? $"There is no school that day: {name}." : "There is no school that day.");
        var others = day.OfLearner.Where(o => o.IsLearnersTime).Sum(o => Minutes(o.Start, o.End));
        if (visit.IsLearnersTime && others + visit.Minutes > day.MostMinutes)
            yield return new(ClashKind.OverDailyLimit, visit.On, string.Create(CultureInfo.InvariantCulture,
                $"The learner would have {others + visit.Minutes} minutes that day, more than the {day.MostMinutes} that the team set as the most."));
    }

    private static bool Meet(PlannedTime visit, TakenTime taken) => visit.Start < taken.End && taken.Start < visit.End;

    private static int Minutes(NodaTime.LocalTime from, NodaTime.LocalTime to) =>
        (int)NodaTime.Period.Between(from, to, NodaTime.PeriodUnits.Minutes).Minutes;
}
