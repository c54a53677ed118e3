using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>Copies what the plan from elsewhere says of one service, and names the service of ours that is comparable to it.</summary>
public sealed class AddComparable(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public string? Words { get; init; }

        /// <summary>Null: none is given yet.</summary>
        public int? Service { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AddComparable), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.MovesIn.SingleOrDefaultAsync(m => m.AgencyId == caller.AgencyId && m.LearnerId == input.Learner, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        List<Problem> problems = [.. MoveRules.CheckService(input.Words)];
        if (input.Service is { } service && !await db.Services.AnyAsync(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner && s.Id == service, stop))
            problems.Add(new("Service", "Choose a service of the learner."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(new MoveInServiceRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            MoveInId = row.Id,
            Words = input.Words!.Trim(),
            ServiceId = input.Service,
            EnteredBy = caller.PersonId,
        });
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
