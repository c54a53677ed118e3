using TeamCircle.Core.Calendar;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Disputes;

/// <summary>What was recorded of one learner between two days, in order: for whoever must find out what happened.</summary>
/// <param name="Days">Those on which there is anything, the earliest first.</param>
/// <param name="Entered">How long after the end of a visit it was first entered, by who gave it.</param>
public sealed record FactsInOrder(
    int LearnerId, string Learner, string Code, string Agency, LocalDate From, LocalDate To, DateTimeZone Zone,
    IReadOnlyList<FactsDay> Days, IReadOnlyList<DelayOf> Entered, IReadOnlyDictionary<int, string> Names)
{
    public IEnumerable<FactsVisit> Visits => Days.SelectMany(d => d.Visits);

    public string Name(int person) => Names.GetValueOrDefault(person, "somebody");
}

/// <param name="Around">Closures, time away, holds and decisions that bear on the day.</param>
/// <param name="Visits">In order of time, as they stand now.</param>
public sealed record FactsDay(LocalDate On, IReadOnlyList<FactAround> Around, IReadOnlyList<FactsVisit> Visits);

public enum AroundKind
{
    Closure,
    Away,
    Hold,
    RecordHold,
    Decision,
    Family,
}

/// <summary>Something dated that is no visit; stands on its first day within the span.</summary>
/// <param name="Until">Its last day; null while nobody knows.</param>
/// <param name="Words">Its name or reason, or what the family said; empty for a decision, which has words of its own.</param>
/// <param name="At">When it was recorded.</param>
public sealed record FactAround(AroundKind Kind, LocalDate From, LocalDate? Until, string Words, Instant At, int? By)
{
    /// <summary>Null for everything else.</summary>
    public DecisionFact? Decision { get; init; }
}

/// <param name="Discipline">Null for a visit of another kind than a service's.</param>
/// <param name="Story">The oldest first.</param>
/// <param name="Standing">What stands; null where nothing was entered, or it was taken back.</param>
/// <param name="Travel">Null where no visit of the same person comes before or after, or no travel time is known.</param>
/// <param name="SameNote">How many other visits of the span have the very same note.</param>
/// <param name="UnderHold">Whether it was first entered while a hold on records kept its day.</param>
public sealed record FactsVisit(
    Guid Id, LocalDate On, LocalTime Start, int Minutes, VisitStanding State, VisitKind Kind, Discipline? Discipline, string? Service, int Provider,
    IReadOnlyList<StoryEvent> Story, VisitEntry? Standing, TravelAround? Travel, int SameNote, bool UnderHold)
{
    /// <summary>What the family says about it, in its own words.</summary>
    public IReadOnlyList<FamilyWord> Family { get; init; } = [];
}

/// <summary>The minutes between a visit and the same provider's one before and after, and those that the road takes by the agency's list.</summary>
public sealed record TravelAround(Guid VisitId, int? GapBefore, int? RoadBefore, int? GapAfter, int? RoadAfter)
{
    /// <summary>Whether one of the two gaps is shorter than its road: to be asked about, not a finding.</summary>
    public bool CannotBeDriven => GapBefore < RoadBefore || GapAfter < RoadAfter;
}

/// <param name="Median">Half of the entries were made within it.</param>
/// <param name="Most">Nine of ten were.</param>
public sealed record DelayOf(int Provider, int Entries, Duration Median, Duration Most);
