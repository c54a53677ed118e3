using Npgsql;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads all that stands in the rows about the services and goals of some learners.</summary>
internal sealed class ReadFacts(NpgsqlConnection connection, RowFilter learners, AgencyRules rules, int asOf, GivenOtherwise? otherwise = null)
{
    public CommitmentFacts Run()
    {
        var rows = new FactRows(connection, learners, rules, asOf);
        rows.GivenBefore();
        rows.Sessions("true order by s.on_day, s.start_time, s.id", rows.Given.Add, otherwise);
        rows.Probes("true", rows.Given.Add, otherwise);
        rows.Visits(ToCome.Either, "true order by v.on_day, v.start_time, v.id", rows.Planned.Add);
        rows.PlannedGoals(ToCome.Either, "true");
        rows.Decisions();
        return rows.Finish();
    }
}
