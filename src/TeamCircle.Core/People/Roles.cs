namespace TeamCircle.Core.People;

/// <summary>What a person is in an agency; a person may have several, each with dates.</summary>
public enum Role
{
    Provider,
    CaseManager,
    Administrator,
    Director,
    Family,
    Reviewer,

    /// <summary>The agency's own terminal: commands run by an operator without a name.</summary>
    Terminal,
}

/// <summary>How a person stands to one learner, with dates.</summary>
public enum Relation
{
    Team,
    CaseManager,
    Substitute,
    Assistant,
    Reviewer,
    Family,
}
