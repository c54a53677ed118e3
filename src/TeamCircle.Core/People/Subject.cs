namespace TeamCircle.Core.People;

/// <summary>What a page is about: what the value <c>id</c> in its address names.</summary>
public enum Subject
{
    /// <summary>Nobody's record: sign-in, settings.</summary>
    None,

    /// <summary>A list over all learners that the caller may see.</summary>
    Learners,

    Learner,
    Service,
    Goal,
    Routine,
    Visit,
    Session,
    Probe,
    Practice,
    Decision,
    Report,

    /// <summary>A person of the agency, not a learner.</summary>
    Person,
}
