using NodaTime;

namespace TeamCircle.Core.Import;

/// <summary>
/// Reads a OneRoster 1.2 set (1EdTech, CSV binding) for what an agency's own files hold: people, learners, families' ties, terms and periods.
/// Pure: it makes rows of those files, and a clerk adds what no such set knows.
/// </summary>
public static class ReadRoster
{
    private static readonly FileKind[] Needed = [FileKind.RosterManifest, FileKind.RosterOrgs, FileKind.RosterUsers, FileKind.RosterRoles];

    /// <param name="tables">At most one of each kind.</param>
    /// <param name="today">Roles that do not hold on this day are left out.</param>
    public static RosterReading Run(IReadOnlyList<RawTable> tables, LocalDate today)
    {
        var findings = new Findings();
        var byKind = tables.ToDictionary(t => t.Kind);
        foreach (var kind in Needed.Where(k => !byKind.ContainsKey(k)))
            findings.Refuse(new(FileShape.Of(kind).FileName, 1, "", "This file is missing: bring the whole OneRoster set, as its zip or with all its files."));
        if (byKind.TryGetValue(FileKind.RosterManifest, out var manifest) && !new ReadRosterManifest(manifest, byKind, findings).IsWhole())
            return new() { Problems = findings.Problems, Notes = findings.Notes };
        var sessions = byKind.TryGetValue(FileKind.RosterSessions, out var calendar) ? ReadRosterSessions.Run(calendar, findings) : new();
        if (Needed.Any(k => !byKind.ContainsKey(k)))
            return new() { Problems = findings.Problems, Notes = findings.Notes };
        var people = new ReadRosterPeople(byKind, today, findings).Run();
        return people with { Terms = sessions.Terms, Periods = sessions.Periods, Problems = ReadFolder.InOrder(findings.Problems), Notes = findings.Notes };
    }

    /// <summary>False for a row that a set of changes marks; a whole set marks none, though some write "active".</summary>
    internal static bool Stands(RowCells row)
    {
        if (row.Cell("status") is not ("" or "active"))
            row.Refuse("status", "A whole set marks no row for deletion: this must be empty.");
        return row.AreGood("status");
    }
}
