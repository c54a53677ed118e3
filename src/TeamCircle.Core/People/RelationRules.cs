using NodaTime;

namespace TeamCircle.Core.People;

/// <summary>How a person is to stand to a learner, as somebody typed it.</summary>
/// <param name="ToDay">Null: until further notice.</param>
/// <param name="Supervisor">For an assistant.</param>
/// <param name="Ground">The paper or authority it rests on.</param>
public sealed record RelationEntry(int? Person, Relation Kind, LocalDate? FromDay, LocalDate? ToDay, int? Supervisor, string? Ground);

/// <summary>A relation in force between two days; no last day means open.</summary>
public sealed record StandingDates(int PersonId, Relation Kind, LocalDate FromDay, LocalDate? ToDay)
{
    public bool Touches(LocalDate from, LocalDate? to) => (to is null || FromDay <= to) && (ToDay is null || from <= ToDay);

    public bool Holds(LocalDate day) => Touches(day, day);
}

/// <summary>What stands when a team changes.</summary>
/// <param name="Roles">Roles of today by person; who is not in it cannot be chosen.</param>
/// <param name="Standing">All relations of the learner.</param>
public sealed record TeamSituation(IReadOnlyDictionary<int, IReadOnlySet<Role>> Roles, IReadOnlyList<StandingDates> Standing);

/// <summary>Who may stand how to a learner; a right follows from the relation in force on each day.</summary>
public static class RelationRules
{
    /// <summary>All problems at once; none where it can be stored.</summary>
    public static IEnumerable<Problem> Check(RelationEntry entry, TeamSituation situation)
    {
        if (entry.Person is not { } person || !situation.Roles.TryGetValue(person, out var roles))
            yield return new("Person", "Choose a person.");
        else if (!Fits(entry.Kind, roles))
            yield return new("Person", RoleNeeded(entry.Kind));
        if (entry.FromDay is not { } from)
            yield return new("FromDay", "Give the first day.");
        else if (entry.ToDay < from)
            yield return new("ToDay", "The last day comes before the first.");
        else if (situation.Standing.Any(s => s.PersonId == entry.Person && s.Kind == entry.Kind && s.Touches(from, entry.ToDay)))
            yield return new("Person", "This person already stands so to the learner on some of these days.");
        if (entry.Kind == Relation.Assistant && (entry.Supervisor is not { } supervisor || !IsOnTeam(supervisor, situation)))
            yield return new("Supervisor", "Name the member of the team who supervises.");
        if (entry.Kind is Relation.Reviewer or Relation.Substitute && entry.ToDay is null)
            yield return new("ToDay", "Give the last day: this relation never stays open.");
        if (entry.Kind == Relation.Reviewer && string.IsNullOrWhiteSpace(entry.Ground))
            yield return new("Ground", "Name the authority for this disclosure.");
    }

    /// <summary>Problems of a new last day; none where it can be stored.</summary>
    /// <param name="lastDay">Null where the relation is taken back altogether.</param>
    /// <param name="others">The learner's other relations.</param>
    public static IEnumerable<Problem> CheckEnd(
        StandingDates now, LocalDate? lastDay, string? reason, LocalDate today, IEnumerable<StandingDates> others)
    {
        if (lastDay < now.FromDay)
            yield return new("LastDay", "The last day comes before the first. Take it back instead if it never held.");
        if (string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why.");
        var firstWithout = lastDay is { } last && last >= today ? last.PlusDays(1) : today;
        if (now.Kind == Relation.CaseManager && now.Touches(today, null)
            && !others.Any(o => o.Kind == Relation.CaseManager && o.ToDay is null && o.FromDay <= firstWithout))
            yield return new("LastDay", "A learner always has a case manager. Name the next one first.");
    }

    /// <summary>
    /// Who writes a learner's team: its case manager everything; an administrator only who the case manager is, so that a
    /// learner whose case manager has left is not lost.
    /// </summary>
    public static bool MayWrite(Caller caller, int learner, Relation kind) =>
        caller.Manages(learner) || (kind == Relation.CaseManager && caller.Is(Role.Administrator));

    private static bool Fits(Relation kind, IReadOnlySet<Role> roles) => kind switch
    {
        Relation.Family => roles.Contains(Role.Family),
        Relation.Reviewer => roles.Contains(Role.Reviewer),
        Relation.CaseManager => roles.Contains(Role.CaseManager),
        _ => roles.Contains(Role.Provider) || roles.Contains(Role.CaseManager),
    };

    private static string RoleNeeded(Relation kind) => kind switch
    {
        Relation.Family => "This person has no family role in the agency. An administrator gives it.",
        Relation.Reviewer => "This person has no reviewer role in the agency. An administrator gives it.",
        Relation.CaseManager => "This person has no case manager role in the agency. An administrator gives it.",
        _ => "This person has no provider role in the agency. An administrator gives it.",
    };

    private static bool IsOnTeam(int person, TeamSituation situation) =>
        situation.Standing.Any(s => s.PersonId == person && s.Kind is Relation.Team or Relation.CaseManager);
}
