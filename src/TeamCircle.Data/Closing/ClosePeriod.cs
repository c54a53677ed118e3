using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Closes a learner's count for one reporting period under the case manager's signature. From then on the database refuses what would change it.</summary>
public sealed class ClosePeriod(Portal portal, SealStatement sealing)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Period { get; init; }

        /// <summary>What was read (<see cref="CountPage.Mark"/>): one signs nothing else.</summary>
        public string? Mark { get; init; }
        public string? Credential { get; init; }

        /// <summary>By the obstacle's key: why the count is closed although it stands.</summary>
        public IReadOnlyDictionary<string, string?> Words { get; init; } = new Dictionary<string, string?>();
    }

    public sealed record Closed(int Statement, int Edition);

    public async Task<Outcome<Closed>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Closed>.Refused(Problem.NotFound);
        await sealing.BeforeAsync(caller, stop);
        return await portal.WriteAsync(
            Scope.Of(caller, "closing a count"), Operation.Of(operation, nameof(ClosePeriod), input), db => WorkAsync(db, caller, input, stop), stop);
    }

    private async Task<Outcome<Closed>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await SealStatement.LockAsync(db, caller, input.Learner, input.Period, stop) is not { } row)
            return Outcome<Closed>.Refused(Problem.NotFound);
        if (row.ClosedAt is not null)
            return Outcome<Closed>.Refused("", "This count is closed already.");
        // A count that was closed before is open again only by a request that a second person granted.
        var reopened = await db.Reopenings.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.PeriodId == input.Period && r.Granted == true)
            .OrderByDescending(r => r.Id).FirstOrDefaultAsync(stop);
        var sealedNow = await sealing.RunAsync(
            db, caller, row, new(input.Learner, input.Period, input.Credential, input.Words), input.Mark ?? "",
            reopened is null ? null : new(reopened.Reason, reopened.AnsweredBy), stop);
        return sealedNow.Value is { } statement ? Outcome<Closed>.Of(new(statement.Id, statement.Edition)) : Outcome<Closed>.Refused(sealedNow.Problems);
    }
}
