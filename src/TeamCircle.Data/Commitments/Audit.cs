using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Commitments;

/// <summary>Where every service and probe commitment that a scope reaches stands in one reporting period as of one day.</summary>
/// <param name="Lines">Services as they came, then the probe commitments.</param>
/// <param name="Providers">Everybody who was named for one of the lines in the period, or gave something in it; by name.</param>
public sealed record Audit(
    AgencyRules Rules, PeriodRow Period, LocalDate AsOf, IReadOnlyList<AuditLine> Lines, IReadOnlyList<ProviderAudit> Providers, AuditNames Names)
{
    /// <summary>The e-mail addresses of who is named for a line, each once; empty where nobody is.</summary>
    public string ProviderEmails(CommitmentLine line) =>
        string.Join(';', line.Named.Select(n => n.PersonId).Distinct().Select(id => Names.People[id].Email));
}

/// <param name="IsUnassigned">Whether nobody is named for it on the as-of day (or, after the period, on its last day).</param>
public sealed record AuditLine(CommitmentLine Line, Balance Balance, bool IsUnassigned);

/// <summary>One line as it stands for one provider: the windows that closed while they were the named person.</summary>
/// <param name="Line">The line's place in <see cref="Audit.Lines"/>.</param>
/// <param name="IsShared">Whether others were named for it too.</param>
/// <param name="Gave">What they gave themselves in the period: minutes, or probes.</param>
public readonly record struct ProviderLine(int Line, Balance Balance, bool IsShared, int Gave);

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

/// <summary>Names that the lines refer to by number.</summary>
public sealed record AuditNames(IReadOnlyDictionary<int, PersonName> People, IReadOnlyDictionary<int, LearnerName> Learners);

public sealed record PersonName(int Id, string Email, string Name);

public sealed record LearnerName(int Id, string Code, string Name);
