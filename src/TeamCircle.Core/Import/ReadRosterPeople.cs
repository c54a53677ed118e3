using NodaTime;

namespace TeamCircle.Core.Import;

/// <summary>Reads who is in a OneRoster set, as what, and which families belong to which learners.</summary>
internal sealed class ReadRosterPeople(IReadOnlyDictionary<FileKind, RawTable> tables, LocalDate today, Findings findings)
{
    private const string UnknownOrg = "No row of orgs.csv has this sourcedId.";

    private readonly HashSet<string> _orgs = [];
    private readonly Dictionary<string, RosterUser> _users = [];

    /// <summary>Also those of refused rows: who names one of these is not to blame.</summary>
    private readonly HashSet<string> _ids = [];

    public RosterReading Run()
    {
        var orgs = new TableReader(tables[FileKind.RosterOrgs], findings);
        foreach (var row in orgs.Rows().Where(ReadRoster.Stands))
        {
            if (row.Text("sourcedId") is { } id && orgs.IsFirst(row, "sourcedId", "This sourcedId stands", id))
                _orgs.Add(id);
        }
        ReadUsers();
        if (_ids.Count > 0) // where no user could be read, every role would name an unknown one
            ReadRoles();
        return new RosterRows(_users, _ids, findings, tables[FileKind.RosterUsers].File).Run();
    }

    private void ReadUsers()
    {
        var reader = new TableReader(tables[FileKind.RosterUsers], findings);
        foreach (var row in reader.Rows())
        {
            var (id, given, last) = (row.Text("sourcedId"), row.Text("givenName"), row.Text("familyName"));
            if (id is not null)
                _ids.Add(id);
            if (row.Cell("enabledUser") is not ("true" or "false"))
                row.Refuse("enabledUser", "This must be true or false.");
            if (row.Cell("primaryOrgSourcedId") is { Length: > 0 } org && !_orgs.Contains(org))
                row.Refuse("primaryOrgSourcedId", UnknownOrg);
            if (row.Cell("email") is { Length: > 0 } email && !ReadPeople.IsAddress(email))
                row.Refuse("email", "This is not an e-mail address.");
            if (id is not null)
                reader.IsFirst(row, "sourcedId", "This sourcedId stands", id);
            if (ReadRoster.Stands(row) && row.IsGood)
                _users[id!] = new(row, $"{given} {last}", row.Cell("email"), row.Cell("identifier"), row.Cell("enabledUser") == "true", Several(row.Cell("agentSourcedIds")));
        }
    }

    private void ReadRoles()
    {
        var others = 0;
        foreach (var row in new TableReader(tables[FileKind.RosterRoles], findings).Rows().Where(ReadRoster.Stands))
        {
            var (user, word, org) = (row.Text("userSourcedId"), row.Text("role"), row.Text("orgSourcedId"));
            var (begin, end) = (row.DayOrNone("beginDate"), row.DayOrNone("endDate"));
            var role = word is null ? null : RosterRole.Find(word);
            if (word is not null && role is null)
                row.Refuse("role", $"This is not known here. The standard has {RosterRole.Words}.");
            if (user is not null && !_ids.Contains(user))
                row.Refuse("userSourcedId", "No row of users.csv has this sourcedId.");
            if (org is not null && !_orgs.Contains(org))
                row.Refuse("orgSourcedId", UnknownOrg);
            if (!row.IsGood)
                continue;
            if (begin > today || end <= today)
                others++;
            else if (_users.TryGetValue(user!, out var known) && !known.Roles.Contains(role!))
                known.Roles.Add(role!);
        }
        if (others > 0)
            findings.Note(new(tables[FileKind.RosterRoles].File, 0, "", $"Roles that do not hold today, left out: {others}."));
    }

    private static string[] Several(string cell) => cell.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}

/// <summary>One row of users.csv, and what roles.csv says of it.</summary>
internal sealed record RosterUser(RowCells Row, string Name, string Email, string Identifier, bool IsEnabled, IReadOnlyList<string> Agents)
{
    public List<RosterRole> Roles { get; } = [];

    public bool IsStudent => Roles.Exists(r => r.IsStudent);

    public bool IsFamily => Roles.Exists(r => r.Here == RosterRole.Family);

    public bool IsStaff => Roles.Exists(r => !r.IsStudent && r.Here != RosterRole.Family);
}

/// <summary>A role of the standard, and the word for it in people.csv.</summary>
/// <param name="Here">Null where no role here is like it, and the clerk says what the person does.</param>
internal sealed record RosterRole(string Word, string? Here)
{
    public const string Family = "family";

    // The standard gives no rights in another program: who may look after people here is read before it is stored, as is every row.
    private static readonly RosterRole[] All =
    [
        new("aide", "provider"), new("counselor", null), new("districtAdministrator", "administrator"), new("guardian", Family), new("parent", Family),
        new("principal", null), new("proctor", null), new("relative", Family), new("siteAdministrator", "administrator"), new("student", null),
        new("systemAdministrator", "administrator"), new("teacher", "provider"),
    ];

    public static string Words { get; } = string.Join(", ", All.Select(r => r.Word));

    public bool IsStudent => Word == "student";

    /// <summary>Null for a word that is none of them; a word of the maker's own begins with "ext:".</summary>
    public static RosterRole? Find(string word) => Array.Find(All, r => r.Word == word) ?? (word.StartsWith("ext:", StringComparison.Ordinal) ? new(word, null) : null);
}
