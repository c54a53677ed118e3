using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>Names another owner of a goal, between two days.</summary>
public sealed class AddOwner(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Goal { get; set; }
        public int? Person { get; set; }
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
    }

    /// <param name="JoinedTeam">Whether the person came on the learner's team by it.</param>
    public sealed record Saved(int Goal, bool JoinedTeam);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AddOwner), input),
            db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.Goals.SingleOrDefaultAsync(g => g.AgencyId == agency && g.LearnerId == input.Learner && g.Id == input.Goal, stop) is not { } goal)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var owners = await db.GoalOwners.Where(o => o.AgencyId == agency && o.GoalId == goal.Id).ToListAsync(stop);
        var givers = await ReadStaff.GiversAsync(db, agency, caller.Today, stop);
        Problem[] problems = [.. AssignmentRules.Check(input.Person, input.FromDay, input.ToDay, new(goal.FromDay, goal.ToDay),
            owners.Select(o => new NamedPerson(o.PersonId, o.FromDay, o.ToDay)), givers.Select(p => p.Id).ToHashSet())];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var named = new NamedPerson(input.Person!.Value, input.FromDay!.Value, input.ToDay!.Value);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(named.FromDay, named.ToDay)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Add(new GoalOwnerRow
        {
            AgencyId = agency,
            LearnerId = input.Learner,
            GoalId = goal.Id,
            PersonId = named.PersonId,
            Position = owners.Select(o => o.Position).DefaultIfEmpty(-1).Max() + 1,
            FromDay = named.FromDay,
            ToDay = named.ToDay,
        });
        return Outcome<Saved>.Of(new(goal.Id, await AssignProvider.JoinTeamAsync(db, caller, input.Learner, named, stop)));
    }
}
