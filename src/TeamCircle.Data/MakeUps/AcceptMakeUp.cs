using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.MakeUps;

/// <summary>Puts one proposed make-up visit on the calendar: a provider for themselves, the case manager for anybody of the team.</summary>
/// <remarks>The calendar may have changed since it was proposed, so that it is held to the planner's rules again, in the same
/// transaction; what the database refuses is refused.</remarks>
public sealed class AcceptMakeUp(Portal portal)
{
    public sealed record Input
    {
        public int Service { get; init; }

        /// <summary>As of the search: the reporting period that the window closes in; null for the one that holds today.</summary>
        public int? Period { get; init; }

        /// <summary>A day of the window that the visit pays.</summary>
        public LocalDate Window { get; init; }
        public int Provider { get; init; }
        public LocalDate OnDay { get; init; }
        public LocalTime Start { get; init; }
        public int Minutes { get; init; }
    }

    public sealed record Saved(Guid Visit, LocalDate OnDay, LocalTime Start, int Minutes);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(AcceptMakeUp), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await LearnerOfAsync(db, caller, input.Service, stop) is not { } learner || !MakeUpFacts.MayPlan(caller, learner, input.Provider))
            return Outcome<Saved>.Refused(Problem.NotFound);
        await DayLock.TakeAsync(db, caller.AgencyId, input.OnDay, [input.Provider], [learner], stop);
        if (await ReadMakeUps.ReadAsync(db, caller, new(learner, input.Service, input.Period), [], stop) is not { } facts
            || facts.Find(input.Service, input.Window) is not (>= 0 and var need))
            return Outcome<Saved>.Refused("", "Nothing lacks in that window any more for which no visit is planned.");
        if (facts.Lacking[need].ProviderId != input.Provider)
            return Outcome<Saved>.Refused("", "Somebody else is named for this service now. Look for visits again.");
        var start = (input.Start.Hour * 60) + input.Start.Minute;
        if (!MakeUpPlanner.Allows(facts.Problem, new(need, new(Day.Of(input.OnDay), start, start + input.Minutes))))
            return Outcome<Saved>.Refused("", "That time is no longer free, or the visit is no longer as long as it may be. Look for visits again.");
        var visit = await VisitAsync(db, facts.Lacking[need], input, caller.AgencyId, stop);
        db.Add(visit);
        return Outcome<Saved>.Of(new(visit.Id, visit.OnDay, visit.StartTime, visit.Minutes));
    }

    private static Task<int?> LearnerOfAsync(PortalDb db, Caller caller, int service, CancellationToken stop) => db.Services
        .Where(s => s.AgencyId == caller.AgencyId && s.Id == service && s.Live).Select(s => (int?)s.LearnerId).SingleOrDefaultAsync(stop);

    private static async Task<VisitRow> VisitAsync(PortalDb db, LackingWindow lacking, Input input, int agency, CancellationToken stop)
    {
        var (line, promised) = (lacking.Line, lacking.Line.Service!);
        var visit = new VisitRow
        {
            AgencyId = agency,
            Id = Guid.CreateVersion7(),
            LearnerId = line.LearnerId,
            ServiceId = line.Id,
            ProviderId = input.Provider,
            Zone = await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop),
            LearnersTime = promised.Kind == ServiceKind.Direct,
            Place = promised.Place,
            Format = promised.Format,
            PaysOn = lacking.Window.Holds(Day.Of(input.OnDay)) ? null : input.Window,
        };
        visit.TakePlace(input.OnDay, input.Start, input.Minutes);
        return visit;
    }
}
