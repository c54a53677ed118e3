using NodaTime;

namespace TeamCircle.Core.People;

/// <summary>Who may come in somebody's place, and for how long.</summary>
public static class SubstituteRules
{
    /// <summary>From the first visit on, the days for which one act can name a substitute; whoever comes for longer belongs on the team.</summary>
    public const int MostDays = 30;

    /// <summary>All problems of sending somebody; none where they can come.</summary>
    /// <param name="person">Who is to come.</param>
    /// <param name="giver">Whose visits they are.</param>
    /// <param name="first">The day of the first visit.</param>
    /// <param name="last">The last day; null: that day only.</param>
    /// <param name="situation">The learner's team, and the roles of today.</param>
    public static IEnumerable<Problem> Check(int? person, int giver, LocalDate first, LocalDate? last, LocalDate today, TeamSituation situation)
    {
        if (person is not { } who || !situation.Roles.TryGetValue(who, out var roles) || !(roles.Contains(Role.Provider) || roles.Contains(Role.CaseManager)))
            yield return new("Person", "Choose a person who gives services in the agency.");
        else if (who == giver)
            yield return new("Person", "These visits are theirs already.");
        else if (situation.Standing.Any(s => s.PersonId == who && s.Kind is Relation.Team or Relation.CaseManager or Relation.Assistant && s.Touches(first, last ?? first)))
            yield return new("Person", "This person works with the learner already: hand the visit over instead.");
        if (first < today)
            yield return new("LastDay", "That day is over. Say in the log who came.");
        if (last < first)
            yield return new("LastDay", "The last day comes before the visit.");
        else if (last > first.PlusDays(MostDays - 1))
            yield return new("LastDay", $"One act names a substitute for at most {MostDays} days. Whoever comes for longer belongs on the team.");
    }
}
