using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Finding;

/// <summary>What was found, by kind; each list holds only what the one who looks may see.</summary>
public sealed record Found(
    FoundList<FoundLearner> Learners, FoundList<FoundPerson> People, FoundList<FoundGoal> Goals, FoundList<FoundRoutine> Routines, FoundList<FoundVisit> Visits)
{
    public bool IsEmpty => Learners.Items.Count + People.Items.Count + Goals.Items.Count + Routines.Items.Count + Visits.Items.Count == 0;
}

/// <param name="AreNear">Nothing is spelled as it was typed; these are spelled nearly so.</param>
/// <param name="More">Whether more fit than are listed.</param>
public sealed record FoundList<T>(IReadOnlyList<T> Items, bool AreNear = false, bool More = false);

public sealed record FoundLearner(int Id, string Name, string Code);

/// <param name="Email">Null where the one who looks does not look after people.</param>
/// <param name="Learners">The learners in reach to whom they stand; empty in a list over the whole agency.</param>
public sealed record FoundPerson(int Id, string Name, string? Email, IReadOnlyList<NamedId> Learners);

public sealed record FoundGoal(int Id, string Area, string Statement, string Learner);

/// <param name="HasEnded">It is practised no more; its card can still be read.</param>
public sealed record FoundRoutine(int Id, string Name, bool HasEnded, string Learner);

public sealed record FoundVisit(
    Guid Id, LocalTime Start, int Minutes, string Learner, string Provider, VisitKind Kind, Discipline? Discipline, VisitState State)
{
    public LocalTime End => Start.PlusMinutes(Minutes);
}
