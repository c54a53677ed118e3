using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Progress;

/// <summary>Records one probe, or one point of teaching data, of a goal.</summary>
public sealed class AddProbe(Portal portal, TimeProvider clock)
{
    public sealed record Input : TypedProbe
    {
        public int GoalId { get; init; }

        /// <summary>The session in which it was taken; null where none is named.</summary>
        public Guid? SessionId { get; init; }

        /// <summary>The practice whose figures it gives, never a second observer's; null for one that was counted by itself.</summary>
        public Guid? PracticeId { get; init; }
    }

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the goal is none of the caller's.</summary>
    public Task<Outcome<SavedProbe>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(AddProbe), input), db => InAsync(db, caller, input, stop), stop);

    internal async Task<Outcome<SavedProbe>> InAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var provider = input.ProviderId ?? caller.PersonId;
        var facts = await ProbeFacts.ReadAsync(db, caller.AgencyId, input.GoalId, clock, stop);
        if (facts is null || !RecordRules.MayRecord(caller, facts.Goal.LearnerId, provider))
            return Outcome<SavedProbe>.Refused(Problem.NotFound);
        if (input.PracticeId is { } practice
            && !await db.Practices.AnyAsync(p => p.AgencyId == caller.AgencyId && p.LearnerId == facts.Goal.LearnerId && p.Id == practice && p.ObservesCode == null && p.Live, stop))
            return Outcome<SavedProbe>.Refused(Problem.NotFound);
        var check = input.Check(facts, provider, replaced: null);
        if (check.Value is not { } verdict)
            return Outcome<SavedProbe>.Refused(check.Problems);
        var row = input.Row(facts, provider);
        (row.SessionId, row.PracticeId) = (input.SessionId, input.PracticeId);
        db.Add(row);
        return Outcome<SavedProbe>.Of(new(row.Id, facts.Goal.Id, verdict.Notices));
    }
}
