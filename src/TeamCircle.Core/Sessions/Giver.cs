using TeamCircle.Core.People;

namespace TeamCircle.Core.Sessions;

/// <summary>Why minutes that were given count nothing. The visit stays on record all the same.</summary>
public enum Withheld
{
    /// <summary>A substitute gave it who is not qualified in the service's discipline.</summary>
    NotQualified,

    /// <summary>An assistant gave it, and the service does not count an assistant's minutes.</summary>
    AssistantsNotCounted,

    /// <summary>An assistant gave it, and the supervisor has not countersigned the entry yet.</summary>
    NotCountersigned,
}

/// <summary>As what somebody gave a visit, by how they stood to the learner on its day (docs/rules.md, part 5).</summary>
public sealed record Giver
{
    /// <summary>Somebody of the team, named for the service or not: what they give counts.</summary>
    public static readonly Giver OfTheTeam = new();

    /// <summary><see cref="Relation.Substitute"/>, <see cref="Relation.Assistant"/>, or <see cref="Relation.Team"/> for everybody else.</summary>
    public Relation As { get; init; } = Relation.Team;

    /// <summary>Whether they are qualified in the service's discipline; asked of substitutes, who are named for no service.</summary>
    public bool IsQualified { get; init; }

    /// <summary>Who supervised an assistant on that day; null for everybody else.</summary>
    public int? Supervisor { get; init; }

    /// <summary>Whether the service counts an assistant's minutes on that day.</summary>
    public bool AssistantsCount { get; init; }

    /// <summary>Why what they gave counts no minutes; null where it counts.</summary>
    /// <param name="isCountersigned">Whether the supervisor signed an assistant's entry.</param>
    public Withheld? Withholds(bool isCountersigned) => As switch
    {
        Relation.Substitute when !IsQualified => Withheld.NotQualified,
        Relation.Assistant when !AssistantsCount => Withheld.AssistantsNotCounted,
        Relation.Assistant when !isCountersigned => Withheld.NotCountersigned,
        _ => null,
    };

    /// <summary>As what somebody gives who stands so to the learner on one day: as a member of the team before anything less.</summary>
    /// <param name="relations">All that hold on that day; empty for somebody who stands in none, who counts as one of the team: a case manager named them.</param>
    public static Relation AsWhat(IReadOnlyCollection<Relation> relations) =>
        relations.Contains(Relation.Team) || relations.Contains(Relation.CaseManager) ? Relation.Team
        : relations.Contains(Relation.Assistant) ? Relation.Assistant
        : relations.Contains(Relation.Substitute) ? Relation.Substitute
        : Relation.Team;
}

/// <summary>Who countersigns what an assistant logged.</summary>
public static class CountersignRules
{
    public const int LongestWord = 1000;

    /// <summary>The supervisor of that day; once they have left the learner's team, its case manager. Never whoever gave it.</summary>
    /// <param name="giver">The assistant.</param>
    /// <param name="supervisor">Who supervised them on the day of the visit.</param>
    /// <param name="isSupervisorHere">Whether that person still works with the learner.</param>
    public static bool MaySign(Caller caller, int learner, int giver, int supervisor, bool isSupervisorHere) =>
        caller.IsStaff && caller.PersonId != giver
        && (caller.PersonId == supervisor ? caller.OnTeam(learner) : caller.Manages(learner) && !isSupervisorHere);

    /// <summary>What is wrong with the word on an entry that is sent back; null where nothing is.</summary>
    public static Problem? CheckWord(string? word) =>
        string.IsNullOrWhiteSpace(word) ? new("Why", "Say what is to be put right.")
        : word.Trim().Length > LongestWord ? new("Why", $"Keep it under {LongestWord} letters.")
        : null;
}
