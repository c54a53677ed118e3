using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Gives somebody's time with a service another last day, or takes it back as if it had never been.</summary>
public sealed class EndAssignment(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Assignment { get; set; }
        public int Version { get; set; }

        /// <summary>Null with <see cref="TakeBack"/>.</summary>
        public LocalDate? LastDay { get; set; }
        public bool TakeBack { get; set; }
        public string? Reason { get; set; }
    }

    public sealed record Saved(int Service);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(EndAssignment), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Assignments.SingleOrDefaultAsync(a => a.AgencyId == agency && a.LearnerId == input.Learner && a.Id == input.Assignment, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var dates = await db.Services.Where(s => s.AgencyId == agency && s.Id == row.ServiceId).Select(s => new PlanDates(s.FromDay, s.ToDay)).SingleAsync(stop);
        var now = new NamedPerson(row.PersonId, row.FromDay, row.ToDay);
        Problem[] problems = [.. AssignmentRules.CheckEnd(input.TakeBack ? row.FromDay : input.LastDay, now, dates, input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, AssignmentRules.DaysTouched(now, input.TakeBack ? null : input.LastDay), stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.BeganOn(row, input.Version);
        (row.Live, row.TakenBackReason) = (false, input.Reason!.Trim());
        if (!input.TakeBack)
            db.Add(new AssignmentRow { AgencyId = agency, LearnerId = row.LearnerId, ServiceId = row.ServiceId, PersonId = row.PersonId, FromDay = row.FromDay, ToDay = input.LastDay!.Value });
        return Outcome<Saved>.Of(new(row.ServiceId));
    }
}
