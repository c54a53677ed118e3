using NodaTime;

namespace TeamCircle.Core.Learners;

/// <summary>A person named for something between two days; both belong to it.</summary>
public sealed record NamedPerson(int PersonId, LocalDate FromDay, LocalDate ToDay);

/// <summary>Who may be named to give a service, or to own a goal, and when.</summary>
public static class AssignmentRules
{
    /// <summary>Problems of naming somebody; none where it can be stored.</summary>
    /// <param name="dates">The dates of the service or goal.</param>
    /// <param name="named">Who is named so far.</param>
    /// <param name="mayBeNamed">People who give services in this agency.</param>
    public static IEnumerable<Problem> Check(
        int? person, LocalDate? from, LocalDate? to, PlanDates dates, IEnumerable<NamedPerson> named, IReadOnlySet<int> mayBeNamed)
    {
        if (person is not { } who || !mayBeNamed.Contains(who))
            yield return new("Person", "Choose a person.");
        if (from is not { } first || !dates.Holds(first))
            yield return new("FromDay", "Give a first day within its dates.");
        else if (to is not { } last || last < first || !dates.Holds(last))
            yield return new("ToDay", "Give a last day within its dates, on or after the first.");
        else if (named.Any(n => n.PersonId == person && n.FromDay <= last && first <= n.ToDay))
            yield return new("Person", "This person is already named on some of these days.");
    }

    /// <summary>Problems of ending it on another day; none where it can be stored.</summary>
    public static IEnumerable<Problem> CheckEnd(LocalDate? lastDay, NamedPerson now, PlanDates dates, string? reason)
    {
        if (lastDay is not { } day || day < now.FromDay || !dates.Holds(day))
            yield return new("LastDay", "Give a day on or after the first one and within its dates.");
        if (string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why.");
    }

    /// <summary>The days on which it holds now or would hold then, but not both; none where the last day stays.</summary>
    /// <param name="lastDay">Null: it is taken back, as if it had never been.</param>
    public static IReadOnlyList<DateInterval> DaysTouched(NamedPerson now, LocalDate? lastDay) => lastDay switch
    {
        null => [new(now.FromDay, now.ToDay)],
        { } day when day == now.ToDay => [],
        { } day => [new(LocalDate.Min(day, now.ToDay).PlusDays(1), LocalDate.Max(day, now.ToDay))],
    };
}
