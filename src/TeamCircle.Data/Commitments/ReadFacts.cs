using Npgsql;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads all that stands in the rows about the services and goals of some learners, by one statement.</summary>
/// <param name="lookAt">The days on which to look at what was given otherwise than promised; null for none.</param>
internal sealed class ReadFacts(NpgsqlConnection connection, RowFilter learners, AgencyRules rules, int asOf, DateRange? lookAt = null)
{
    private readonly JoinedRows _joined = new(connection);

    /// <summary>Takes what else is to be read by the same statement; it is there once <see cref="Run"/> is through.</summary>
    public IRowReader Also => _joined;

    public CommitmentFacts Run()
    {
        var rows = new FactRows(_joined, null, learners, rules, asOf, lookAt);
        rows.GivenBefore();
        rows.Sessions("true order by s.on_day, s.start_time, s.id", rows.Given.Add, look: true);
        rows.Probes("true", rows.Probed.Add, look: true);
        rows.Visits(ToCome.Either, "true order by v.on_day, v.start_time, v.id", rows.Planned.Add);
        rows.PlannedGoals(ToCome.Either, "true");
        rows.Decisions();
        rows.Debts();
        _joined.Run();
        return rows.Finish();
    }
}
