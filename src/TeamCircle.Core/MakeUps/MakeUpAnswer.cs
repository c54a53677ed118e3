namespace TeamCircle.Core.MakeUps;

/// <summary>What a proposal is judged by, the first first.</summary>
public enum LevelName
{
    /// <summary>Minutes that no visit brings.</summary>
    Unmet,

    /// <summary>Provider, day and place with a proposed visit and none on the calendar.</summary>
    ExtraTrips,

    /// <summary>Proposed visits.</summary>
    Visits,

    /// <summary>The positions of the proposed visits' days among the days that are left, from 0, added up.</summary>
    Days,
}

/// <summary>How good a proposal is in one respect.</summary>
/// <param name="Value">Less is better.</param>
/// <param name="Bound">No proposal that is as good in the respects before has less.</param>
public readonly record struct Level(LevelName Name, int Value, int Bound)
{
    public bool IsProven => Value == Bound;
}

/// <summary>A visit that is proposed.</summary>
/// <param name="Need">The position of the need whose window it would pay.</param>
public readonly record struct ProposedVisit(int Need, DayTime When);

/// <summary>Why minutes stay unmet: the limit without which, alone, more could be met while all other visits stay where they are.</summary>
public enum UnmetReason
{
    /// <summary>The provider's working hours.</summary>
    ProviderHours,

    /// <summary>The provider's most minutes a day.</summary>
    ProviderDay,

    /// <summary>The learner's open hours.</summary>
    LearnerHours,

    /// <summary>The learner's most minutes a day.</summary>
    LearnerDay,

    /// <summary>Travel between places.</summary>
    Travel,

    /// <summary>Too few days are left on which both have room.</summary>
    Days,

    /// <summary>The smallest and the largest visit do not add up to what lacks.</summary>
    Lengths,

    /// <summary>More could be met as it is; the search ended before.</summary>
    SearchEnded,

    /// <summary>No limit alone: more than one stands in the way.</summary>
    Several,
}

/// <summary>Minutes of a need that stay unmet, above 0.</summary>
public readonly record struct UnmetNeed(int Need, int Minutes, UnmetReason Because);

/// <summary>One proposal. It books nothing: a person accepts each visit.</summary>
/// <param name="Visits">By day and start.</param>
/// <param name="Unmet">In the order of the needs; without reasons until the search is over.</param>
/// <param name="Levels">One of each, in their order.</param>
public sealed record MakeUpAnswer(IReadOnlyList<ProposedVisit> Visits, IReadOnlyList<UnmetNeed> Unmet, IReadOnlyList<Level> Levels)
{
    public Level this[LevelName name] => Levels[(int)name];
}
