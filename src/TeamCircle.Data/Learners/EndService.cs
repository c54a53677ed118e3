using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Gives a service another last day within its plan, earlier or later.</summary>
public sealed class EndService(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Service { get; set; }
        public int Version { get; set; }
        public LocalDate? LastDay { get; set; }
        public string? Reason { get; set; }
    }

    /// <param name="PlannedAfter">Visits still planned after the last day: to be called off or moved.</param>
    public sealed record Saved(int Service, int PlannedAfter);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(EndService), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    internal static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == input.Learner && s.Id == input.Service, stop) is not { } line)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var plan = await db.Plans.Where(p => p.AgencyId == agency && p.LearnerId == input.Learner && p.Id == line.PlanId)
            .Select(p => new PlanDates(p.StartDay, p.EndDay)).SingleAsync(stop);
        var lastBegin = await db.ServiceVersions.Where(v => v.AgencyId == agency && v.ServiceId == line.Id).MaxAsync(v => v.FromDay, stop);
        Problem[] problems = [.. ServiceRules.CheckEnd(input.LastDay, lastBegin, plan, input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var (now, then) = (line.ToDay, input.LastDay!.Value);
        if (now != then && await ClosedCounts.FindAsync(db, agency, input.Learner,
                [new(LocalDate.Min(now, then).PlusDays(1), LocalDate.Max(now, then))], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Touch(line, input.Version);
        (line.ToDay, line.EndReason) = (then, input.Reason!.Trim());
        var plannedAfter = await db.Visits.CountAsync(v => v.AgencyId == agency && v.ServiceId == line.Id && v.Live
            && v.State == VisitState.Planned && v.OnDay > then && v.PaysOn == null, stop);
        return Outcome<Saved>.Of(new(line.Id, plannedAfter));
    }
}
