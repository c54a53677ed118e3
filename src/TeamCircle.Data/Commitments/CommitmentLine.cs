using System.Collections.Immutable;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>One service line, or one probe commitment: of one owner, or of all owners together.</summary>
/// <remarks>A goal whose kind of window changes has one line for each kind, one after the other.</remarks>
public sealed record CommitmentLine
{
    /// <summary>Whether it counts probes of a goal; otherwise minutes of a service.</summary>
    public required bool IsProbes { get; init; }

    /// <summary>The service, or the goal.</summary>
    public required int Id { get; init; }
    public required int LearnerId { get; init; }

    /// <summary>The agency's code of the service or goal.</summary>
    public required string Code { get; init; }

    /// <summary>For probes asked of each owner: the owner. Null for a service and for all owners together.</summary>
    public int? OwnerId { get; init; }

    /// <summary>Who is named and when, in order; nobody is assigned where it is empty.</summary>
    public required ImmutableArray<Named> Named { get; init; }
    public required Promise Promise { get; init; }
    public required PromiseWindows Windows { get; init; }

    /// <summary>The plan's dates.</summary>
    public required DateRange Plan { get; init; }

    /// <summary>The learner's most minutes a day for the learner's own time, 1 for probes, null for adults' or nobody's time.</summary>
    public int? DailyLimit { get; init; }

    /// <summary>What the plan promises beside amounts; null for probes.</summary>
    public ServiceTerms? Service { get; init; }

    /// <summary>The goal's heading; null for a service.</summary>
    public string? Area { get; init; }

    /// <summary>For probes: whether it runs for a part of the goal's dates only, since an owner or the kind of window changed.</summary>
    public bool IsPartOfGoal { get; init; }

    /// <summary>Order in the plan.</summary>
    public int Position { get; init; }

    /// <summary>Whether it takes the learner's own minutes.</summary>
    public bool TakesLearnersTime => !IsProbes && DailyLimit is not null;

    /// <summary>Whether somebody is named on a day.</summary>
    public bool IsAssigned(int day)
    {
        foreach (var named in Named)
        {
            if (named.Days.Holds(day))
                return true;
        }
        return false;
    }

    /// <summary>Whether a person is named on a day.</summary>
    public bool IsNamed(int person, int day)
    {
        foreach (var named in Named)
        {
            if (named.PersonId == person && named.Days.Holds(day))
                return true;
        }
        return false;
    }
}

/// <summary>What a service promises beside its amount.</summary>
public sealed record ServiceTerms(Discipline Discipline, ServiceKind Kind, Place Place, SessionFormat Format);

/// <summary>A person named for a line, with the days; both ends belong to it.</summary>
public readonly record struct Named(int PersonId, DateRange Days);
