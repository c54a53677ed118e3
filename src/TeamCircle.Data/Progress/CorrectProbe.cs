using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Progress;

/// <summary>Puts another probe in the place of one on record, with a reason. The old one stays and is shown.</summary>
public sealed class CorrectProbe(Portal portal, TimeProvider clock)
{
    public sealed record Input : TypedProbe
    {
        /// <summary>The probe that the form showed.</summary>
        public Guid Probe { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    /// <summary>Refused with field "Version" where somebody corrected it first, with <see cref="Problem.NotFound"/> where it is none of the caller's.</summary>
    public Task<Outcome<SavedProbe>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(CorrectProbe), input), db => CorrectAsync(db, caller, input, stop), stop);

    private async Task<Outcome<SavedProbe>> CorrectAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var old = await StandingProbe.LockAsync(db, caller, input.Probe, stop);
        var provider = input.ProviderId ?? old?.ProviderId ?? caller.PersonId;
        if (old is null || !RecordRules.MayRecord(caller, old.LearnerId, provider))
            return Outcome<SavedProbe>.Refused(Problem.NotFound);
        if (!old.Live)
            return Outcome<SavedProbe>.Refused(Refusals.ChangedMeanwhile);
        if (await ProbeFacts.ReadAsync(db, caller.AgencyId, old.GoalId, clock, stop) is not { } facts)
            return Outcome<SavedProbe>.Refused(Problem.NotFound);
        var check = input.Check(facts, provider, old.Id);
        Problem[] problems = [.. check.Problems, .. Reason(input)];
        if (problems.Length > 0)
            return Outcome<SavedProbe>.Refused(problems);
        old.Live = false;
        await db.SaveChangesAsync(stop);
        var row = input.Row(facts, provider);
        (row.SessionId, row.Replaces, row.CorrectionReason) = (old.SessionId, old.Id, input.Why!.Trim());
        db.Add(row);
        return Outcome<SavedProbe>.Of(new(row.Id, old.GoalId, check.Value!.Notices));
    }

    private static IEnumerable<Problem> Reason(Input input)
    {
        if (string.IsNullOrWhiteSpace(input.Why))
            yield return new(nameof(input.Why), "Say why it is corrected.");
    }
}
