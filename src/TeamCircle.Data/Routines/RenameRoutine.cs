using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Gives a routine another name; its card and all that was practised stay with it.</summary>
public sealed class RenameRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }
        public int Version { get; init; }
        public string? Name { get; init; }
    }

    public sealed record Saved(int Routine);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(RenameRoutine), input), (db, row) => WorkAsync(db, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, RoutineRow routine, Input input, CancellationToken stop)
    {
        var taken = await db.Routines.Where(r => r.AgencyId == routine.AgencyId && r.LearnerId == routine.LearnerId && r.Live && r.Id != routine.Id)
            .Select(r => r.Name).ToListAsync(stop);
        Problem[] problems = [.. RoutineRules.Check(input.Name, null, taken)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(routine, input.Version);
        routine.Name = input.Name!.Trim();
        return Outcome<Saved>.Of(new(routine.Id));
    }
}
