using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Gives a plan other dates: it is extended, replaced early, or was typed wrong. Its services and goals keep theirs.</summary>
public sealed class ChangePlan(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Plan { get; set; }
        public int Version { get; set; }
        public LocalDate? StartDay { get; set; }
        public LocalDate? EndDay { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(ChangePlan), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop, input.Reason);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var plans = await db.Plans.Where(p => p.AgencyId == agency && p.LearnerId == input.Learner).ToListAsync(stop);
        if (plans.SingleOrDefault(p => p.Id == input.Plan) is not { } plan)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var parts = await PartsAsync(db, plan, stop);
        Problem[] problems =
        [
            .. PlanRules.Check(input.StartDay, input.EndDay, plans.Where(p => p != plan).Select(p => new PlanDates(p.StartDay, p.EndDay))),
            .. PlanRules.CheckChange(input.StartDay, input.EndDay, parts, input.Reason),
        ];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, await TouchedAsync(db, plan, input, stop), stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(plan, input.Version);
        (plan.StartDay, plan.EndDay) = (input.StartDay!.Value, input.EndDay!.Value);
        return Outcome<Saved>.Of(new(input.Learner));
    }

    private static async Task<List<PlanDates>> PartsAsync(PortalDb db, PlanRow plan, CancellationToken stop) =>
    [
        .. await db.Services.Where(s => s.AgencyId == plan.AgencyId && s.LearnerId == plan.LearnerId && s.PlanId == plan.Id)
            .Select(s => new PlanDates(s.FromDay, s.ToDay)).ToListAsync(stop),
        .. await db.Goals.Where(g => g.AgencyId == plan.AgencyId && g.LearnerId == plan.LearnerId && g.PlanId == plan.Id)
            .Select(g => new PlanDates(g.FromDay, g.ToDay)).ToListAsync(stop),
    ];

    /// <summary>A promise by the plan year is spread over all days of the plan; any other does not ask for its dates.</summary>
    private static async Task<DateInterval[]> TouchedAsync(PortalDb db, PlanRow plan, Input input, CancellationToken stop)
    {
        var byYear = await db.Services.AnyAsync(s => s.AgencyId == plan.AgencyId && s.PlanId == plan.Id && s.EveryUnit == EveryUnit.PlanYear, stop)
            || await db.ProbeCommitments.AnyAsync(c => c.AgencyId == plan.AgencyId && c.EveryUnit == EveryUnit.PlanYear
                && db.Goals.Any(g => g.AgencyId == plan.AgencyId && g.Id == c.GoalId && g.PlanId == plan.Id), stop);
        return byYear
            ? [new(LocalDate.Min(plan.StartDay, input.StartDay!.Value), LocalDate.Max(plan.EndDay, input.EndDay!.Value))]
            : [];
    }
}
