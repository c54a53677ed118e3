using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Commitments;

/// <summary>How the lines of an audit are grouped.</summary>
public enum AuditBy
{
    Learner,
    Service,
    Provider,
}

/// <summary>One row of the audit as a person asked for it: a line, or a provider's share of it.</summary>
/// <param name="Line">The line's place in <see cref="Audit.Lines"/>.</param>
/// <param name="ProviderId">The provider, where the audit is grouped by provider; otherwise null.</param>
/// <param name="IsShared">For a provider's share: whether others were named for the line too.</param>
/// <param name="Gave">For a provider's share: what they gave themselves.</param>
public readonly record struct AuditRow(int Line, Balance Balance, int? ProviderId = null, bool IsShared = false, int? Gave = null);

/// <summary>Which lines of an audit a person asked for, and in what order. Lines with nobody assigned stand first.</summary>
public sealed record AuditFilter
{
    public AuditBy By { get; init; }
    public Status? Status { get; init; }

    /// <summary>Services of this discipline, and goals with its name for a heading.</summary>
    public Discipline? Discipline { get; init; }

    /// <summary>Lines for which this person is named.</summary>
    public int? Person { get; init; }
    public int? Learner { get; init; }

    /// <summary>Whether anything narrows the list.</summary>
    public bool IsNarrowed => (Status, Discipline, Person, Learner) != (null, null, null, null);

    public IReadOnlyList<AuditRow> Apply(Audit audit) => By == AuditBy.Provider ? Shares(audit) : Lines(audit);

    private List<AuditRow> Lines(Audit audit)
    {
        var rows = new List<AuditRow>();
        for (var i = 0; i < audit.Lines.Count; i++)
        {
            var line = audit.Lines[i];
            if (Holds(audit, line.Line, line.Balance.Status) && (Person is null || line.Line.Named.Any(n => n.PersonId == Person)))
                rows.Add(new(i, line.Balance));
        }
        return Ordered(audit, rows);
    }

    private List<AuditRow> Shares(Audit audit)
    {
        var rows = new List<AuditRow>();
        foreach (var provider in audit.Providers)
        {
            if (Person is { } person && provider.PersonId != person)
                continue;
            var own = provider.Lines.Where(l => Holds(audit, audit.Lines[l.Line].Line, l.Balance.Status))
                .Select(l => new AuditRow(l.Line, l.Balance, provider.PersonId, l.IsShared, l.Gave)).ToList();
            rows.AddRange(Ordered(audit, own));
        }
        return rows;
    }

    private bool Holds(Audit audit, CommitmentLine line, Status status) =>
        line.Promise.Dates.Touches(audit.At.Period)
        && (Status is null || status == Status)
        && (Learner is null || line.LearnerId == Learner)
        && (Discipline is not { } discipline || (line.Service is { } service ? service.Discipline == discipline : IsHeading(line.Area, discipline)));

    private static bool IsHeading(string? area, Discipline discipline) =>
        string.Equals(area?.Trim(), Words.Of(discipline), StringComparison.OrdinalIgnoreCase);

    private List<AuditRow> Ordered(Audit audit, List<AuditRow> rows)
    {
        rows.Sort((x, y) => Key(audit, x).CompareTo(Key(audit, y)));
        return rows;
    }

    private (bool, int, string, bool, int, int) Key(Audit audit, AuditRow row)
    {
        var line = audit.Lines[row.Line];
        var code = audit.Names.Learners.TryGetValue(line.Line.LearnerId, out var learner) ? learner.Code : "";
        var service = By == AuditBy.Service ? (int?)line.Line.Service?.Discipline ?? int.MaxValue : 0;
        return (!line.IsUnassigned, service, code, line.Line.IsProbes, line.Line.Position, row.Line);
    }
}
