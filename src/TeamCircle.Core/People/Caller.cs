namespace TeamCircle.Core.People;

/// <summary>How somebody stands to one learner today.</summary>
public readonly record struct Standing(int LearnerId, Relation Relation);

/// <summary>Who asks, as it stands today: read once a request, so that a right given or taken away acts at once.</summary>
/// <param name="AgencyId">The agency in which they act; another agency of the same account is another caller.</param>
/// <param name="PersonId">Their person in that agency.</param>
/// <param name="Name">For the page's own head; never for a log.</param>
/// <param name="Roles">Roles in force today.</param>
/// <param name="Standings">Relations to learners in force today.</param>
/// <param name="Today">The agency's date.</param>
public sealed record Caller(
    int AgencyId,
    int PersonId,
    string Name,
    IReadOnlySet<Role> Roles,
    IReadOnlyList<Standing> Standings,
    NodaTime.LocalDate Today)
{
    /// <summary>The network address that the request came from, for the record of access; null where none did: a job, a command.</summary>
    public string? Address { get; init; }

    /// <summary>Whether they work for the agency; a family member who also works there is staff.</summary>
    public bool IsStaff => Roles.Any(r => r is Role.Provider or Role.CaseManager or Role.Administrator or Role.Director or Role.Terminal);

    /// <summary>Whether a seat of theirs as family is paused since the learner has come of age; it is none of the standings.</summary>
    public bool HasPausedSeat { get; init; }

    /// <summary>The learners whose rows the database lets them reach; each once, in order.</summary>
    public IReadOnlyList<int> Learners => [.. Standings.Select(s => s.LearnerId).Distinct().Order()];

    public bool Is(Role role) => Roles.Contains(role);

    /// <summary>On the learner's team: staff with any standing other than family or reviewer.</summary>
    public bool OnTeam(int learner) =>
        Standings.Any(s => s.LearnerId == learner && s.Relation is not (Relation.Family or Relation.Reviewer));

    /// <summary>On the learner's team in full, or its case manager: neither as a substitute for some days nor as an assistant.</summary>
    public bool IsMember(int learner) => Stands(learner, Relation.Team) || Manages(learner);

    /// <summary>Whether they reach the learner for some days only, in somebody's place.</summary>
    public bool StandsIn(int learner) => Stands(learner, Relation.Substitute) && !IsMember(learner) && !Stands(learner, Relation.Assistant);

    /// <summary>The same caller without the learners of whose team they are no full member: those whose minutes and statuses they do not see.</summary>
    public Caller AsMember() => this with { Standings = [.. Standings.Where(s => IsMember(s.LearnerId))] };

    /// <summary>The same caller with the learners of their teams alone: staff who are also a child's family look as staff only, and the child's record is not theirs to look through.</summary>
    public Caller AsTeam() => this with { Standings = [.. Standings.Where(s => OnTeam(s.LearnerId))] };

    public bool Manages(int learner) => Stands(learner, Relation.CaseManager);

    public bool IsFamilyOf(int learner) => Stands(learner, Relation.Family);

    /// <summary>An outside reviewer of that learner: the role and the relation, both in force today.</summary>
    public bool Reviews(int learner) => Is(Role.Reviewer) && Stands(learner, Relation.Reviewer);

    public bool Stands(int learner, Relation relation) => Standings.Contains(new Standing(learner, relation));
}
