using TeamCircle.Core.Closing;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Commitments;

/// <summary>An award of compensatory services, beside the line by which it is given.</summary>
/// <param name="Line">The line's place: the service that it names, or the learner's first of its discipline.</param>
/// <param name="Given">Up to the as-of day, whatever the period.</param>
public readonly record struct AuditAward(int Line, AwardUnit Unit, int Awarded, int Given)
{
    public int Left => Math.Max(0, Awarded - Given);
}

/// <summary>Reads the awards that stand, for an audit: in no figure of a promise.</summary>
internal sealed class AuditAwards
{
    private readonly List<(int Learner, int Service, Discipline Discipline, AwardUnit Unit, int Awarded, int Given)> _awards = [];

    /// <summary>Awards that are there once the reader has read them.</summary>
    public static AuditAwards Read(IRowReader reader, RowFilter rows, int asOf)
    {
        var awards = new AuditAwards();
        reader.Read($"""
            select a.learner_id, coalesce(a.service_id, 0), a.discipline, a.unit, a.amount,
                   case a.unit when '{AwardUnit.Minutes}' then coalesce(g.minutes, 0) else coalesce(g.sessions, 0) end
            from portal.awards a left join lateral (
                select sum(s.credited)::int as minutes, (count(*) filter (where s.credited > 0))::int as sessions from portal.sessions s
                where (s.agency_id, s.learner_id, s.award_id) = (a.agency_id, a.learner_id, a.id) and s.live and s.outcome = 'Given' and s.on_day <= {FactRows.Sql(asOf)}) g on true
            where {rows.Sql("a")} and a.live order by a.id
            """, row => awards._awards.Add((row.Int(), row.Int(), row.Code<Discipline>(), row.Code<AwardUnit>(), row.Int(), row.Int())));
        return awards;
    }

    /// <summary>Each beside its line; without those that have none.</summary>
    public List<AuditAward> Beside(CommitmentFacts facts) =>
        [.. _awards.Select(a => new AuditAward(Line(facts, a.Learner, a.Service, a.Discipline), a.Unit, a.Awarded, a.Given)).Where(a => a.Line >= 0)];

    private static int Line(CommitmentFacts facts, int learner, int service, Discipline discipline)
    {
        foreach (var line in facts.ByLearner.Of(learner))
        {
            if (facts.Lines[line] is { Service: { } terms } found && (service == 0 ? terms.Discipline == discipline : found.Id == service))
                return line;
        }
        return -1;
    }
}
