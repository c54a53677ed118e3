using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Starts a learner's next plan by its dates; services and goals are added to it afterwards.</summary>
public sealed class StartPlan(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public LocalDate? StartDay { get; set; }
        public LocalDate? EndDay { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(StartPlan), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var others = await db.Plans.Where(p => p.AgencyId == agency && p.LearnerId == input.Learner)
            .Select(p => new PlanDates(p.StartDay, p.EndDay)).ToListAsync(stop);
        Problem[] problems = [.. PlanRules.Check(input.StartDay, input.EndDay, others)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(new PlanRow { AgencyId = agency, LearnerId = input.Learner, StartDay = input.StartDay!.Value, EndDay = input.EndDay!.Value });
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
