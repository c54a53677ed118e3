using TeamCircle.Core.Commitments;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Where every service and probe commitment that a scope reaches stands in one reporting period as of one day.</summary>
/// <param name="At">The period and the as-of day, as the ledger takes them.</param>
public sealed record Audit(CommitmentFacts Facts, Judging At, PeriodRow Period, AuditNames Names)
{
    /// <summary>Services as they came, then the probe commitments; the same places as in <see cref="CommitmentFacts.Lines"/>.</summary>
    public required IReadOnlyList<AuditLine> Lines { get; init; }

    /// <summary>Everybody who was named for one of the lines in the period, or gave something in it; by name.</summary>
    public required IReadOnlyList<ProviderAudit> Providers { get; init; }
    public required AuditChecks Checks { get; init; }

    /// <summary>Awards of compensatory services, as they were entered.</summary>
    public IReadOnlyList<AuditAward> Awards { get; init; } = [];

    /// <summary>Where a standby was read, the moment up to which it held what was saved; null where the primary was.</summary>
    public Instant? HeldUntil { get; init; }

    /// <summary>Those beside one line.</summary>
    public IEnumerable<AuditAward> AwardsOf(AuditLine line) => Awards.Where(a => ReferenceEquals(Lines[a.Line], line));
    public AgencyRules Rules => Facts.Rules;
    public LocalDate AsOf => Core.Time.Day.Date(At.AsOf);

    /// <summary>The e-mail addresses of who is named for a line, each once; empty where nobody is.</summary>
    public string ProviderEmails(CommitmentLine line) =>
        string.Join(';', line.Named.Select(n => n.PersonId).Distinct().Select(Names.Email));

    /// <summary>In the agency's zone.</summary>
    public LocalDateTime LocalOf(Instant at) => at.InZone(DateTimeZoneProviders.Tzdb[Rules.Agency.TimeZone]).LocalDateTime;

    /// <summary>The agency's date of a moment.</summary>
    public LocalDate DayOf(Instant at) => LocalOf(at).Date;

    /// <summary>How one line was worked out.</summary>
    public Working Explain(int line) => Ledger.Explain(Facts.Of(line, At), At);
}

/// <param name="IsUnassigned">Whether nobody is named for it on the as-of day (or, after the period, on its last day).</param>
public sealed record AuditLine(CommitmentLine Line, Balance Balance, bool IsUnassigned)
{
    /// <summary>The days without service, where nobody is named for it; null otherwise, and for probes.</summary>
    public DaysWithout? Without { get; init; }
}

/// <summary>One line as it stands for one provider: the windows that closed while they were the named person.</summary>
/// <param name="Line">The line's place in <see cref="Audit.Lines"/>.</param>
/// <param name="Judged">The line as it stands for them: the very line of the audit where they were named throughout.</param>
/// <param name="IsShared">Whether others were named for it too.</param>
/// <param name="Gave">What they gave themselves in the period: minutes, or probes.</param>
public readonly record struct ProviderLine(int Line, AuditLine Judged, bool IsShared, int Gave)
{
    public Balance Balance => Judged.Balance;
}

/// <summary>One provider in the period.</summary>
/// <param name="GaveMinutes">What they gave themselves in the period up to the as-of day, whoever was named.</param>
/// <param name="GaveProbes">The same in probes.</param>
public sealed record ProviderAudit(
    int PersonId, ProviderStanding Standing, IReadOnlyList<ProviderLine> Lines, int GaveMinutes, int GaveProbes)
{
    /// <summary>The sums of one unit over the lines.</summary>
    public PeriodBalance Sum(Audit audit, bool probes)
    {
        var sum = default(PeriodBalance);
        foreach (var line in Lines)
        {
            if (audit.Lines[line.Line].Line.IsProbes == probes)
                sum = sum.Plus(line.Balance.Minutes);
        }
        return sum;
    }
}

/// <summary>Names that rows refer to by number.</summary>
public sealed record AuditNames(IReadOnlyDictionary<int, PersonName> People, IReadOnlyDictionary<int, LearnerName> Learners)
{
    /// <summary>A person's name; empty where it may not be read.</summary>
    public string Person(int id) => People.TryGetValue(id, out var person) ? person.Name : "";

    public string Email(int id) => People.TryGetValue(id, out var person) ? person.Email : "";

    /// <summary>The names that the scope of an open transaction reaches, all of the agency; they are there once the reader has read them.</summary>
    public static AuditNames Read(IRowReader reader, RowFilter rows) => Read(reader, rows.OfAgency("p"), rows.OfAgency("l"));

    /// <summary>Only the names of the filter's learners and of those who stand beside their lines, visits, probes and decisions: a page of one learner is not to grow with
    /// the agency.</summary>
    public static AuditNames ReadBeside(IRowReader reader, RowFilter rows) => Read(reader, $"{rows.OfAgency("p")} and p.id in ({Beside(rows)})", rows.Sql("l", "id"));

    private static AuditNames Read(IRowReader reader, string ofPeople, string ofLearners)
    {
        var people = new Dictionary<int, PersonName>();
        reader.Read($"select p.id, p.email, p.name from portal.people p where {ofPeople}", row =>
        {
            var id = row.Int();
            people[id] = new(id, row.Text(), row.Text());
        });
        var learners = new Dictionary<int, LearnerName>();
        reader.Read($"select l.id, l.code, l.name from portal.learners l where {ofLearners}", row =>
        {
            var id = row.Int();
            learners[id] = new(id, row.Text(), row.Text());
        });
        return new(people, learners);
    }

    private static string Beside(RowFilter rows)
    {
        string Of(string people, string table) => $"select {people} from portal.{table} where {rows.Sql(table)}";
        return string.Join(" union ", Of("person_id", "assignments"), Of("person_id", "goal_owners"), Of("provider_id", "sessions"), Of("provider_id", "probes"),
            Of("provider_id", "visits"), Of("unnest(decided_by)", "decisions"));
    }
}

public sealed record PersonName(int Id, string Email, string Name);

public sealed record LearnerName(int Id, string Code, string Name);
