using NodaTime;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Progress;

/// <summary>One point of a goal's data, with the conditions it was taken under.</summary>
/// <param name="Value">In the unit of the goal's measure.</param>
/// <param name="Opportunities">Trials presented; null where nobody counted them.</param>
/// <param name="Person">Who took it.</param>
public sealed record GoalPoint(LocalDate Day, decimal Value, int? Opportunities, ProbeKind Kind, int Person)
{
    /// <summary>As whoever recorded it said; null: what its day says (<see cref="GoalStages.Of"/>).</summary>
    public Stage? Stage { get; init; }

    /// <summary>Where it was, in the team's words; null where nobody said. So are the next three.</summary>
    public string? Place { get; init; }

    public StateOfLearner? State { get; init; }

    public string? Position { get; init; }

    /// <summary>On which side things were presented.</summary>
    public string? Side { get; init; }
}

/// <summary>To which stage of a goal a point belongs.</summary>
public static class GoalStages
{
    /// <summary>The stage that was recorded; otherwise before or during teaching by its day. The day on which teaching began is part of teaching.</summary>
    /// <param name="teachingFrom">Null where nobody said when teaching began: what has no stage of its own is then before teaching.</param>
    public static Stage Of(GoalPoint point, LocalDate? teachingFrom) =>
        point.Stage ?? (point.Day >= teachingFrom ? Stage.DuringTeaching : Stage.BeforeTeaching);

    /// <summary>The day on which teaching began: as written, otherwise the first day with a point that is said to be of teaching or later; null where there is none.</summary>
    public static LocalDate? TeachingFrom(LocalDate? written, IEnumerable<GoalPoint> points) =>
        written ?? points.Where(p => p.Stage is not null and not Stage.BeforeTeaching).Select(p => (LocalDate?)p.Day).Min();
}
