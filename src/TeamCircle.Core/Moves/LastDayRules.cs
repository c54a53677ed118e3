using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Moves;

/// <summary>Somebody's last day in an agency: who sets it, and what has to be decided by then.</summary>
public static class LastDayRules
{
    /// <summary>Days before the last one from which the case managers are asked to hand over: our choice.</summary>
    public const int WarningDays = 30;

    /// <summary>A last day can be entered so many days after it: some leave without notice.</summary>
    public const int DaysLate = 60;

    public const int LongestWords = 1000;

    /// <summary>Roles that end with the last day; a family or reviewer role of the same person stays.</summary>
    public static bool Ends(Role role) => role is Role.Provider or Role.CaseManager or Role.Administrator or Role.Director;

    /// <summary>Relations that end by themselves with the last day. Who the case manager is must be handed over: a learner always has one.</summary>
    public static bool Ends(Relation relation) => relation is Relation.Team or Relation.Assistant or Relation.Substitute;

    /// <summary>All problems of a last day.</summary>
    public static IEnumerable<Problem> Check(LocalDate? day, LocalDate today)
    {
        if (day is not { } last || last < today.PlusDays(-DaysLate))
            yield return new("Day", $"Give the last day; it can't lie more than {DaysLate} days back.");
    }

    /// <summary>All problems of why something is taken back, undone or filed.</summary>
    public static IEnumerable<Problem> CheckWords(string? words)
    {
        if (string.IsNullOrWhiteSpace(words) || words.Trim().Length > LongestWords)
            yield return new("Reason", $"Say why in under {LongestWords} letters.");
    }

    /// <summary>All problems of handing a learner over.</summary>
    /// <param name="to">Null: nobody yet.</param>
    /// <param name="manager">The next case manager; null where they manage the learner and nobody is named yet, or do not manage them.</param>
    /// <param name="roles">Roles of today by person.</param>
    public static IEnumerable<Problem> CheckHandOver(
        int leaver, int? to, int? manager, LocalDate? from, LocalDate lastDay, IReadOnlyDictionary<int, IReadOnlySet<Role>> roles)
    {
        bool Has(int person, params Role[] wanted) => roles.TryGetValue(person, out var own) && wanted.Any(own.Contains);
        if (to is { } next && (next == leaver || !Has(next, Role.Provider, Role.CaseManager)))
            yield return new("To", "Choose a colleague who gives services, or nobody yet.");
        if (manager is { } managing && (managing == leaver || !Has(managing, Role.CaseManager)))
            yield return new("Manager", "Choose somebody with the role of a case manager. An administrator gives it.");
        if (to is not null && (from is not { } first || first <= lastDay))
            yield return new("FromDay", "The successor begins after the last day.");
    }

    /// <summary>Whether a hand-over can still be undone: the successor has not begun.</summary>
    public static bool MayUndo(LocalDate from, LocalDate today) => today < from;
}
