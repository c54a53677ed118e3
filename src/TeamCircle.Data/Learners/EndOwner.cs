using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Gives an owner of a goal another last day, or takes the ownership back as if it had never been.</summary>
public sealed class EndOwner(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Owner { get; set; }
        public int Version { get; set; }

        /// <summary>Null with <see cref="TakeBack"/>.</summary>
        public LocalDate? LastDay { get; set; }
        public bool TakeBack { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Goal);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(EndOwner), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.GoalOwners.SingleOrDefaultAsync(o => o.AgencyId == agency && o.LearnerId == input.Learner && o.Id == input.Owner, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var dates = await db.Goals.Where(g => g.AgencyId == agency && g.Id == row.GoalId).Select(g => new PlanDates(g.FromDay, g.ToDay)).SingleAsync(stop);
        var now = new NamedPerson(row.PersonId, row.FromDay, row.ToDay);
        Problem[] problems = [.. AssignmentRules.CheckEnd(input.TakeBack ? row.FromDay : input.LastDay, now, dates, input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, AssignmentRules.DaysTouched(now, input.TakeBack ? null : input.LastDay), stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        if (!input.TakeBack)
            db.Add(new GoalOwnerRow
            {
                AgencyId = agency,
                LearnerId = row.LearnerId,
                GoalId = row.GoalId,
                PersonId = row.PersonId,
                Position = row.Position,
                FromDay = row.FromDay,
                ToDay = input.LastDay!.Value,
            });
        return Outcome<Saved>.Of(new(row.GoalId));
    }
}
