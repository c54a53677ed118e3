using TeamCircle.Core.Time;

namespace TeamCircle.Core.Learners;

/// <summary>A service of one of two entries of the same learner.</summary>
public sealed record JoinedService(int Id, string Code, Discipline Discipline, ServiceKind Kind, Every Every);

/// <summary>When both entries have a visit: one learner can't be at both.</summary>
public sealed record DoubledVisit(NodaTime.LocalDate OnDay, NodaTime.LocalTime Start, NodaTime.LocalTime OtherStart);

/// <summary>What stands when two entries of one learner are joined.</summary>
/// <param name="IsEnded">Whether one of them was joined to another before, or is quiet.</param>
public sealed record JoinSituation(
    bool IsEnded, IReadOnlyList<JoinedService> Doubled, IReadOnlyList<JoinedService> Stays, IReadOnlyList<DoubledVisit> Visits);

/// <summary>A learner who was entered twice becomes one (docs/decisions/0030).</summary>
public static class JoinRules
{
    /// <summary>Of the reason, in letters.</summary>
    public const int LongestReason = 500;

    /// <summary>All problems at once; none where they can be joined.</summary>
    /// <param name="same">By service of the entry that goes, the service of the one that stays that promises the same; a service that is not in it goes over as one more.</param>
    public static IEnumerable<Problem> Check(IReadOnlyDictionary<int, int> same, string? reason, JoinSituation situation)
    {
        if (situation.IsEnded)
            yield return new("", "One of the two was joined to another before, or is quiet. Nothing is joined.");
        if (string.IsNullOrWhiteSpace(reason) || reason.Trim().Length > LongestReason)
            yield return new("Reason", "Say how it came that the learner was entered twice, in at most 500 letters.");
        foreach (var (was, into) in same)
        {
            var (old, other) = (situation.Doubled.FirstOrDefault(s => s.Id == was), situation.Stays.FirstOrDefault(s => s.Id == into));
            if (old is null || other is null || !Matches(old, other))
                yield return new($"Same[{was}]", "Only a service of the same discipline and kind, counted over the same weeks or months, can be the same service.");
        }
        foreach (var visit in situation.Visits.Take(20))
            yield return new("", $"Both have a visit on {visit.OnDay:uuuu-MM-dd}, at {visit.Start:HH:mm} and {visit.OtherStart:HH:mm}. Take back the one that was not given.");
    }

    /// <summary>Whether two services can be the same one.</summary>
    public static bool Matches(JoinedService one, JoinedService other) => (one.Discipline, one.Kind, one.Every) == (other.Discipline, other.Kind, other.Every);
}
