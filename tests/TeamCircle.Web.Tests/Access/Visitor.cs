namespace TeamCircle.Web.Tests.Access;

/// <summary>Every way of standing to Wren and her agency that the access matrix tells apart.</summary>
public enum Visitor
{
    SignedOut,
    ProviderOnTeam,
    ProviderElsewhere,

    /// <summary>A colleague who stands in for the provider today, and today only.</summary>
    Substitute,

    /// <summary>An assistant whom the provider supervises.</summary>
    Assistant,

    /// <summary>A provider of Wren's team who has shown a password and nothing else, on an account that has no second factor yet.</summary>
    PasswordAlone,
    CaseManager,
    CaseManagerElsewhere,
    Administrator,
    Director,
    Family,
    FamilyElsewhere,

    /// <summary>An outside reviewer to whom her file is open today.</summary>
    Reviewer,

    /// <summary>A case manager of another agency.</summary>
    OtherAgency,

    /// <summary>Signed in, and on no agency's list any more.</summary>
    NobodyAnywhere,
}
