using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Progress;

/// <summary>Takes a probe back that should not be there; it stays on record with the reason.</summary>
public sealed class TakeBackProbe(Portal portal)
{
    public sealed record Input
    {
        public Guid Probe { get; init; }

        [StringLength(1000)]
        public string? Why { get; init; }
    }

    public Task<Outcome<SavedProbe>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(TakeBackProbe), input), db => TakeBackAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<SavedProbe>> TakeBackAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await StandingProbe.LockAsync(db, caller, input.Probe, stop) is not { } probe)
            return Outcome<SavedProbe>.Refused(Problem.NotFound);
        if (!probe.Live)
            return Outcome<SavedProbe>.Refused(Refusals.ChangedMeanwhile);
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<SavedProbe>.Refused(Refusals.NoReason(nameof(input.Why)));
        (probe.Live, probe.TakenBackReason) = (false, input.Why.Trim());
        return Outcome<SavedProbe>.Of(new(probe.Id, probe.GoalId, []));
    }
}
