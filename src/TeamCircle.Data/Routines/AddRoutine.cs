using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Adds a routine to a learner: its name, the object that announces it, and where it is done.</summary>
public sealed class AddRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public string? Name { get; init; }
        public string? ObjectCue { get; init; }

        /// <summary>Null: wherever the learner is.</summary>
        [EnumDataType(typeof(Place))]
        public Place? Place { get; init; }
    }

    public sealed record Saved(int Routine);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AddRoutine), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var taken = await db.Routines.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.Live).Select(r => r.Name).ToListAsync(stop);
        Problem[] problems = [.. RoutineRules.Check(input.Name, input.ObjectCue, taken)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new RoutineRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Name = input.Name!.Trim(),
            ObjectCue = string.IsNullOrWhiteSpace(input.ObjectCue) ? null : input.ObjectCue.Trim(),
            Place = input.Place,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
