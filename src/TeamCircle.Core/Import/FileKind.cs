namespace TeamCircle.Core.Import;

/// <summary>The files an agency brings, in the order in which they are read: a row may refer to rows of files before its own.</summary>
public enum FileKind
{
    Agency,
    Terms,
    Periods,
    ClosureEvents,
    Closures,
    People,
    Learners,
    Services,
    Goals,
    Assignments,
    Balances,
    Visits,
    Decisions,
    Probes,

    // A OneRoster set, of which files of the kinds above are made.
    RosterManifest,
    RosterOrgs,
    RosterUsers,
    RosterRoles,
    RosterSessions,
}
