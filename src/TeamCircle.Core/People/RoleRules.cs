using NodaTime;

namespace TeamCircle.Core.People;

/// <summary>Who may give which role, and for which days.</summary>
public static class RoleRules
{
    /// <summary>All that stands in the way; a caller who looks after no people gets <see cref="Problem.NotFound"/>.</summary>
    public static IReadOnlyList<Problem> Check(Caller caller, Role role, LocalDate fromDay, LocalDate? toDay)
    {
        if (!LooksAfterPeople(caller))
            return [Problem.NotFound];
        var problems = new List<Problem>();
        if (role is Role.Terminal || !Enum.IsDefined(role))
            problems.Add(new("Role", "Choose one of the roles."));
        if (toDay < fromDay)
            problems.Add(new("ToDay", "The last day lies before the first."));
        return problems;
    }

    /// <summary>Null where the caller may end that role of that person.</summary>
    public static Problem? CheckEnd(Caller caller, int person, Role role) =>
        person == caller.PersonId && role is Role.Administrator
            ? new Problem("", "You can't end your own role of administrator: another administrator can.")
            : null;

    public static bool LooksAfterPeople(Caller caller) => caller.Is(Role.Administrator) || caller.Is(Role.Terminal);
}
