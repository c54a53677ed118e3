using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads all that stands in the rows about the services and goals of some learners: of few by one statement, of many one after the other.</summary>
/// <param name="lookAt">The days on which to look at what was given otherwise than promised; null for none.</param>
internal sealed class ReadFacts(PortalDb db, RowFilter learners, AgencyRules rules, int asOf, DateRange? lookAt = null)
{
    private readonly JoinedRows? _joined = learners.IsFew ? new(db, learners) : null;
    private readonly OneByOne _oneByOne = new((NpgsqlConnection)db.Database.GetDbConnection());

    /// <summary>The learners, as queries for <see cref="Also"/> name them.</summary>
    public RowFilter Rows { get; } = learners with { IsBound = learners.IsFew };

    /// <summary>Takes what else is to be read by the same statement; it is there once <see cref="RunAsync"/> is through.</summary>
    public IRowReader Also => _joined is null ? _oneByOne : _joined;

    public async Task<CommitmentFacts> RunAsync(CancellationToken stop)
    {
        if (_joined is null)
            return await Task.Run(() => Ask().Finish(), stop);
        var rows = Ask();
        await _joined.RunAsync(stop);
        return rows.Finish();
    }

    private FactRows Ask()
    {
        var rows = new FactRows(Also, null, Rows, rules, asOf, lookAt);
        rows.GivenBefore();
        rows.Sessions("true order by s.on_day, s.start_time, s.id", rows.Given.Add, look: true);
        rows.Probes("true", rows.Probed.Add, look: true);
        rows.Visits(ToCome.Either, "true order by v.on_day, v.start_time, v.id", rows.Planned.Add);
        rows.PlannedGoals(ToCome.Either, "true");
        rows.Decisions();
        rows.Debts();
        return rows;
    }
}
