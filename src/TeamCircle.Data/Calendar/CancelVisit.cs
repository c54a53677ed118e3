using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Cancels a visit to come, with its reason. What it would have given stays undecided until people decide.</summary>
public sealed class CancelVisit(Portal portal)
{
    public sealed record Input
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }

        [EnumDataType(typeof(Reason))]
        public Reason? Reason { get; init; }
    }

    public sealed record Saved(Guid Visit, LocalDate OnDay);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(CancelVisit), input), async db =>
        {
            var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
            if (found.Value is not { } visit)
                return Outcome<Saved>.Refused(found.Problems);
            if (input.Reason is not { } reason)
                return Outcome<Saved>.Refused(nameof(input.Reason), "Choose the reason.");
            visit.CallOff(reason);
            return Outcome<Saved>.Of(new(visit.Id, visit.OnDay));
        }, stop);
}
