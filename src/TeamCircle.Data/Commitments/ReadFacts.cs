using Npgsql;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads all that stands in the rows about the services and goals of some learners.</summary>
/// <param name="lookAt">The days on which to look at what was given otherwise than promised; null for none.</param>
internal sealed class ReadFacts(NpgsqlConnection connection, RowFilter learners, AgencyRules rules, int asOf, DateRange? lookAt = null)
{
    public CommitmentFacts Run()
    {
        var rows = new FactRows(connection, null, learners, rules, asOf, lookAt);
        rows.GivenBefore();
        rows.Sessions("true order by s.on_day, s.start_time, s.id", rows.Given.Add, look: true);
        rows.Probes("true", rows.Probed.Add, look: true);
        rows.Visits(ToCome.Either, "true order by v.on_day, v.start_time, v.id", rows.Planned.Add);
        rows.PlannedGoals(ToCome.Either, "true");
        rows.Decisions();
        rows.Debts();
        return rows.Finish();
    }
}
