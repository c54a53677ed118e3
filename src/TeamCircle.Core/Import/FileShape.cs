namespace TeamCircle.Core.Import;

/// <summary>The columns of one kind of file.</summary>
/// <param name="Required">Columns that the header must have.</param>
/// <param name="Optional">Columns that it may have.</param>
public sealed record FileShape(FileKind Kind, string FileName, IReadOnlyList<string> Required, IReadOnlyList<string> Optional)
{
    /// <summary>All tables, in the order in which they are read.</summary>
    public static IReadOnlyList<FileShape> Tables { get; } =
    [
        Table(FileKind.Terms, "terms.csv", "name, first day, last day", "kind"),
        Table(FileKind.Periods, "periods.csv", "name, start, end", ""),
        Table(FileKind.Closures, "closures.csv", "date, name", "kind"),
        Table(FileKind.People, "people.csv", "email, name, roles", "disciplines, credential"),
        Table(FileKind.Learners, "learners.csv", "code, name, plan start, plan end, case manager, team, most minutes a day", "family, sending district"),
        Table(FileKind.Services, "services.csv", "code, learner, service, quantity, every, from, to, place, kind",
            "provider, sessions, terms, co-treatment, short window, format, quantity to, wording, words, page, continues"),
        Table(FileKind.Goals, "goals.csv",
            "code, learner, area, statement, measure, better, baseline, target, target date, criterion, probes, every, by, owners, from, to", ""),
        Table(FileKind.Assignments, "assignments.csv", "service, person, from, to", ""),
        Table(FileKind.Balances, "balances.csv", "service, as of", "given before, brought forward, award, source, until"),
        Table(FileKind.Visits, "visits.csv", "date, service, provider, start, end, outcome",
            "planned start, planned end, reason, makes up for, not counted, format, place, partner, note, ref"),
        Table(FileKind.Decisions, "decisions.csv", "date, amount, decision, decided on, by", "service, goal, sessions, family told on, note"),
        Table(FileKind.Probes, "probes.csv", "date, goal, provider, value", "opportunities, kind, stage, makes up for"),
    ];

    /// <summary>The files of a OneRoster 1.2 set that are read (1EdTech, CSV binding); cells hold several values with commas between them.</summary>
    public static IReadOnlyList<FileShape> Roster { get; } =
    [
        Table(FileKind.RosterManifest, "manifest.csv", "propertyName, value", ""),
        Table(FileKind.RosterOrgs, "orgs.csv", "sourcedId, name, type", "status, dateLastModified, identifier, parentSourcedId"),
        Table(FileKind.RosterUsers, "users.csv", "sourcedId, enabledUser, givenName, familyName, identifier, email, agentSourcedIds",
            "status, dateLastModified, username, userIds, middleName, sms, phone, grades, password, userMasterIdentifier, resourceSourcedIds, "
            + "preferredGivenName, preferredMiddleName, preferredFamilyName, primaryOrgSourcedId, pronouns"),
        Table(FileKind.RosterRoles, "roles.csv", "userSourcedId, role, beginDate, endDate, orgSourcedId", "sourcedId, status, dateLastModified, roleType, userProfileSourcedId"),
        Table(FileKind.RosterSessions, "academicSessions.csv", "sourcedId, title, type, startDate, endDate", "status, dateLastModified, parentSourcedId, schoolYear"),
    ];

    /// <summary>Names of all files that a folder may hold.</summary>
    public static IReadOnlyList<string> FileNames { get; } = ["agency.json", "closures.ics", .. Tables.Select(t => t.FileName)];

    /// <summary>Whether a header may have this column; case does not matter. A OneRoster file may have columns of its maker's own, named metadata and more.</summary>
    public bool Knows(string column) => Required.Concat(Optional).Contains(column, StringComparer.OrdinalIgnoreCase)
        || (IsRoster(Kind) && column.StartsWith("metadata.", StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether a file of this kind belongs to a OneRoster set.</summary>
    public static bool IsRoster(FileKind kind) => kind >= FileKind.RosterManifest;

    /// <summary>The header line of an empty file.</summary>
    public string Template => string.Join(',', Required.Concat(Optional)) + "\r\n";

    public static FileShape Of(FileKind kind) => Tables.Concat(Roster).Single(t => t.Kind == kind);

    /// <summary>The kind of a file by its exact name, as in a folder; null where it is none of them.</summary>
    public static FileKind? ByName(string fileName) => fileName.ToLowerInvariant() switch
    {
        "agency.json" => FileKind.Agency,
        "closures.ics" => FileKind.ClosureEvents,
        var name => Tables.Concat(Roster).FirstOrDefault(t => string.Equals(t.FileName, name, StringComparison.OrdinalIgnoreCase))?.Kind,
    };

    /// <summary>The kind of a file that somebody picked: by its exact name, or by how the name begins (<c>visits-october.csv</c>).</summary>
    public static FileKind? ByBeginning(string fileName)
    {
        if (ByName(fileName) is { } exact)
            return exact;
        if (fileName.EndsWith(".ics", StringComparison.OrdinalIgnoreCase))
            return FileKind.ClosureEvents;
        return FileNames.FirstOrDefault(known => Begins(fileName, known)) is { } found ? ByName(found) : null;
    }

    private static bool Begins(string fileName, string known) =>
        fileName.StartsWith(Path.GetFileNameWithoutExtension(known), StringComparison.OrdinalIgnoreCase)
        && fileName.EndsWith(Path.GetExtension(known), StringComparison.OrdinalIgnoreCase);

    private static FileShape Table(FileKind kind, string name, string required, string optional) =>
        new(kind, name, Columns(required), Columns(optional));

    private static string[] Columns(string list) =>
        list.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
