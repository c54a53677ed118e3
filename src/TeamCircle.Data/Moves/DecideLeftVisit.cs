using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Decides a visit that handing a learner over left behind, because something stands against it at its time: a colleague gives it, at that time or another,
/// or nobody does, and it is called off because nobody is assigned.
/// </summary>
public sealed class DecideLeftVisit(Portal portal)
{
    public sealed record Input
    {
        public Guid Visit { get; init; }
        public int Version { get; init; }

        /// <summary>Who gives it; null: nobody.</summary>
        public int? To { get; init; }

        /// <summary>Asked for with <see cref="To"/>.</summary>
        public LocalDate? OnDay { get; init; }
        public LocalTime? Start { get; init; }
        public bool Confirmed { get; init; }
    }

    /// <param name="Person">Who leaves.</param>
    /// <param name="To">A name; null: nobody gives it.</param>
    public sealed record Saved(int Learner, int Person, string? To, LocalDate OnDay, LocalTime Start);

    /// <summary>Not found for anybody but the learner's case manager, and for a visit that is not left behind.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(DecideLeftVisit), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await PlannedVisit.LockAsync(db, caller, input.Visit, input.Version, stop);
        if (found.Value is not { } visit)
            return Outcome<Saved>.Refused(found.Problems);
        if (!caller.Manages(visit.LearnerId) || await LastDayAsync(db, visit, stop) is not { } last)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var person = visit.ProviderId;
        if (input.To is null)
        {
            visit.CallOff(Reason.NobodyAssigned);
            return Outcome<Saved>.Of(new(visit.LearnerId, person, null, visit.OnDay, visit.StartTime));
        }
        Problem[] problems = [.. await CheckAsync(db, caller, visit, last, input, stop)];
        return problems.Length > 0 ? Outcome<Saved>.Refused(problems) : await GiveAsync(db, visit, input, stop);
    }

    /// <summary>The last day that the visit lies after; null where it is not left behind.</summary>
    internal static Task<LastDayRow?> LastDayAsync(PortalDb db, VisitRow visit, CancellationToken stop) =>
        db.LastDays.SingleOrDefaultAsync(d => d.AgencyId == visit.AgencyId && d.PersonId == visit.ProviderId && d.Day < visit.OnDay, stop);

    private static async Task<IEnumerable<Problem>> CheckAsync(PortalDb db, Caller caller, VisitRow visit, LastDayRow last, Input input, CancellationToken stop)
    {
        List<Problem> problems = [.. CalendarRules.CheckTime(input.Start, visit.Minutes)];
        if (input.OnDay is not { } day || day < caller.Today || day <= last.Day)
            problems.Add(new(nameof(input.OnDay), "Choose a day after the last day, today or later."));
        else if (!(await TeamMember.ReadAsync(db, visit.AgencyId, [visit.LearnerId], day, stop)).Exists(t => t.PersonId == input.To && t.PersonId != visit.ProviderId))
            problems.Add(new(nameof(input.To), "Choose somebody who is on the learner's team on that day."));
        return problems;
    }

    private static async Task<Outcome<Saved>> GiveAsync(PortalDb db, VisitRow visit, Input input, CancellationToken stop)
    {
        var (person, to) = (visit.ProviderId, input.To!.Value);
        var spec = (await VisitSpec.OfAsync(db, visit, stop)) with { Provider = to, Partner = visit.PartnerId == to ? null : visit.PartnerId, Start = input.Start!.Value };
        var problems = await PlannedVisit.MoveAsync(db, visit, spec, input.OnDay!.Value, input.Confirmed, stop);
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        visit.PartnerId = spec.Partner;
        var name = await db.People.Where(p => p.AgencyId == visit.AgencyId && p.Id == to).Select(p => p.Name).SingleAsync(stop);
        return Outcome<Saved>.Of(new(visit.LearnerId, person, name, visit.OnDay, visit.StartTime));
    }
}
