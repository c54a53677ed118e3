using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Ends a routine: it is planned and practised no more. Its card, and what was practised, can still be read.</summary>
public sealed class EndRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }
        public int Version { get; init; }

        [StringLength(500, ErrorMessage = "Keep the reason under 500 letters.")]
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Routine);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(EndRoutine), input), (db, row) => Task.FromResult(Work(db, caller, row, input)), stop);

    private static Outcome<Saved> Work(PortalDb db, Caller caller, RoutineRow routine, Input input)
    {
        if (!routine.Live)
            return Outcome<Saved>.Refused(RoutineDoor.Ended);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(nameof(input.Reason), "Say why it ends: others will ask.");
        db.BeganOn(routine, input.Version);
        (routine.Live, routine.EndedOn, routine.EndedBy, routine.EndedReason) = (false, caller.Today, caller.PersonId, input.Reason.Trim());
        return Outcome<Saved>.Of(new(routine.Id));
    }
}
