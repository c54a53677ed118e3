using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Things;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Things;

/// <summary>Writes down a thing that the plan promises, whose job it is, and what it bears on; or changes what was written.</summary>
public sealed class PromiseThing(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>Null for a new one.</summary>
        public int? Thing { get; init; }
        public int Version { get; init; }
        public ThingKind? Kind { get; init; }
        public string? Name { get; init; }
        public string? PlanWords { get; init; }

        /// <summary>Whose job it is: somebody who works with the learner.</summary>
        public int? Owner { get; init; }
        public LocalDate? PromisedOn { get; init; }
        public LocalDate? DueOn { get; init; }

        /// <summary>Goals on whose charts it is shown when it is out of order.</summary>
        public int[] Goals { get; init; } = [];

        /// <summary>Routines on whose cards it is said.</summary>
        public int[] Routines { get; init; } = [];
    }

    public sealed record Saved(int Thing);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(PromiseThing), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!ThingRules.MayPromise(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var row = input.Thing is { } id ? await ReadThings.FindAsync(db, caller, input.Learner, id, stop) : NewRow(caller, input.Learner);
        if (row is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        List<Problem> problems = [.. ThingRules.Check(new(input.Kind, input.Name, input.PlanWords, input.PromisedOn, input.DueOn))];
        if (!await IsOwnerAsync(db, caller, row, input.Owner, stop))
            problems.Add(new(nameof(input.Owner), "Choose whose job it is, among those who work with the learner."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        if (input.Thing is null)
            db.Add(row);
        else
            db.BeganOn(row, input.Version);
        (row.Kind, row.Name, row.PlanWords) = (input.Kind!.Value, input.Name!.Trim(), string.IsNullOrWhiteSpace(input.PlanWords) ? null : input.PlanWords.Trim());
        (row.OwnerId, row.PromisedOn, row.DueOn) = (input.Owner!.Value, input.PromisedOn!.Value, input.DueOn);
        row.Goals = await db.Goals.Where(g => g.AgencyId == row.AgencyId && g.LearnerId == row.LearnerId && input.Goals.Contains(g.Id)).OrderBy(g => g.Id).Select(g => g.Id).ToArrayAsync(stop);
        row.Routines = await db.Routines.Where(r => r.AgencyId == row.AgencyId && r.LearnerId == row.LearnerId && input.Routines.Contains(r.Id)).OrderBy(r => r.Id).Select(r => r.Id).ToArrayAsync(stop);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private ThingRow NewRow(Caller caller, int learner) => new()
    {
        AgencyId = caller.AgencyId,
        LearnerId = learner,
        Name = "",
        EnteredBy = caller.PersonId,
        EnteredAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
    };

    /// <summary>Somebody who works with the learner, or whoever it is already.</summary>
    private static async Task<bool> IsOwnerAsync(PortalDb db, Caller caller, ThingRow row, int? owner, CancellationToken stop) =>
        owner is { } person && (row.OwnerId == person || (await TeamMember.ReadAsync(db, caller.AgencyId, [row.LearnerId], caller.Today, stop)).Exists(m => m.PersonId == person));
}
