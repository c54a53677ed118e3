using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Hands over all that somebody who leaves has with one learner: services, goals, things, visits and series to come, supervision, and who manages the learner.
/// Their days end with the last day; the successor's begin on theirs. Without a successor nobody is assigned, and the days without service count.
/// </summary>
/// <remarks>What lacks stays with the service (docs/rules.md, parts 7 and 8): nothing that was given, missed or decided changes.</remarks>
public sealed class HandOverLearner(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Person { get; init; }

        /// <summary>Null: nobody yet.</summary>
        public int? To { get; init; }

        /// <summary>The next case manager, where the person manages the learner.</summary>
        public int? Manager { get; init; }

        /// <summary>The successor's first day; null: the day after the last day.</summary>
        public LocalDate? FromDay { get; init; }
    }

    /// <param name="Visits">Visits that are the successor's now, or that are not planned any more.</param>
    /// <param name="Left">Visits that stay on the list, because something stands against them at their time.</param>
    public sealed record Saved(int Learner, string? To, int Visits, int Left);

    private const string Why = "handed over at a last day";

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(HandOverLearner), input), db => WorkAsync(db, caller, operation, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.LastDays.SingleOrDefaultAsync(d => d.AgencyId == agency && d.PersonId == input.Person, stop) is not { } last)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var from = input.FromDay ?? last.Day.PlusDays(1);
        Problem[] problems = [.. LastDayRules.CheckHandOver(input.Person, input.To, input.Manager, from, last.Day, await ReadStaff.RolesAsync(db, agency, caller.Today, stop))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var handOver = new LearnerHandOverRow
        {
            AgencyId = agency,
            LearnerId = input.Learner,
            PersonId = input.Person,
            ToPersonId = input.To,
            ManagerId = input.Manager,
            LastDay = last.Day,
            FromDay = from,
            DoneBy = caller.PersonId,
            DoneAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
            Operation = operation,
        };
        if (await NamesAsync(db, handOver, caller, stop) is { } problem)
            return Outcome<Saved>.Refused(problem);
        var isNamed = db.ChangeTracker.HasChanges();
        await db.SaveChangesAsync(stop); // the successor is on the team from here on, which their calendar's wall asks for
        var visits = await new HandOverVisits(db, handOver, caller.Today).RunAsync(stop);
        // A thing is always somebody's job: without a successor it is the case manager's.
        foreach (var thing in await db.Things.Where(t => t.AgencyId == agency && t.LearnerId == input.Learner && t.OwnerId == input.Person && t.EndedOn == null).ToListAsync(stop))
            thing.OwnerId = input.To ?? input.Manager ?? caller.PersonId;
        if (!isNamed && visits.Moved == 0 && !db.ChangeTracker.HasChanges())
            return Outcome<Saved>.Refused("To", "Nothing would change like this. Choose who takes over what is left; a visit that something stands against is to be moved or called off first.");
        db.Add(handOver);
        var name = input.To is { } to ? await db.People.Where(p => p.AgencyId == agency && p.Id == to).Select(p => p.Name).SingleAsync(stop) : null;
        return Outcome<Saved>.Of(new(input.Learner, name, visits.Moved, visits.Left));
    }

    /// <summary>Services, goals and relations; null where all could be.</summary>
    private static async Task<Problem?> NamesAsync(PortalDb db, LearnerHandOverRow over, Caller caller, CancellationToken stop)
    {
        var (agency, learner, person, last) = (over.AgencyId, over.LearnerId, over.PersonId, over.LastDay);
        var assigned = await db.Assignments.Where(a => a.AgencyId == agency && a.LearnerId == learner).ToListAsync(stop);
        var owners = await db.GoalOwners.Where(o => o.AgencyId == agency && o.LearnerId == learner).ToListAsync(stop);
        var (theirs, owned) = (assigned.Where(a => a.PersonId == person && a.ToDay > last).ToList(), owners.Where(o => o.PersonId == person && o.ToDay > last).ToList());
        DateInterval[] touched = [.. theirs.Select(a => new DateInterval(LocalDate.Max(a.FromDay, last.PlusDays(1)), a.ToDay)), .. owned.Select(o => new DateInterval(LocalDate.Max(o.FromDay, last.PlusDays(1)), o.ToDay))];
        if (touched.Length > 0 && await ClosedCounts.FindAsync(db, agency, learner, touched, stop) is { } closed)
            return closed;
        foreach (var row in theirs)
        {
            row.EndOn(db, last, Why);
            var begin = LocalDate.Max(row.FromDay, over.FromDay);
            if (over.ToPersonId is { } to && begin <= row.ToDay && !assigned.Exists(a => a.ServiceId == row.ServiceId && a.PersonId == to && a.FromDay <= row.ToDay && begin <= a.ToDay))
                db.Add(row.With(to, begin, row.ToDay));
        }
        foreach (var row in owned)
        {
            row.EndOn(db, last, Why);
            var begin = LocalDate.Max(row.FromDay, over.FromDay);
            if (over.ToPersonId is { } to && begin <= row.ToDay && !owners.Exists(o => o.GoalId == row.GoalId && o.PersonId == to && o.FromDay <= row.ToDay && begin <= o.ToDay))
                db.Add(row.With(to, begin, row.ToDay));
        }
        await RelationsAsync(db, over, caller, [.. touched.Select(t => t.End)], stop);
        return null;
    }

    /// <param name="named">The last days of all for which the successor is named.</param>
    private static async Task RelationsAsync(PortalDb db, LearnerHandOverRow over, Caller caller, IReadOnlyList<LocalDate> named, CancellationToken stop)
    {
        var (last, next) = (over.LastDay, over.LastDay.PlusDays(1));
        var relations = await db.Relations.Where(r => r.AgencyId == over.AgencyId && r.LearnerId == over.LearnerId && (r.ToDay == null || r.ToDay > last)).ToListAsync(stop);
        if (over.ManagerId is { } manager)
        {
            foreach (var row in relations.Where(r => r.PersonId == over.PersonId && r.Kind == Relation.CaseManager))
            {
                row.EndOn(db, last, Why);
                if (!relations.Exists(r => r.PersonId == manager && r.Kind == Relation.CaseManager))
                    db.Add(new RelationRow { AgencyId = over.AgencyId, LearnerId = over.LearnerId, PersonId = manager, Kind = Relation.CaseManager, FromDay = LocalDate.Max(row.FromDay, next), ToDay = row.ToDay });
            }
        }
        if (over.ToPersonId is not { } successor)
            return; // an assistant is never without a supervisor: that one stays on the list
        var supervised = relations.Where(r => r.SupervisorId == over.PersonId && r.PersonId != successor).ToList();
        LocalDate[] until = [.. named, .. supervised.Select(r => r.ToDay ?? LocalDate.MaxIsoValue)];
        if (until.Length > 0)
            await AssignProvider.JoinTeamAsync(db, caller, over.LearnerId, new(successor, over.FromDay, until.Max()), stop);
        foreach (var row in supervised)
        {
            row.EndOn(db, last, Why);
            db.Add(row.With(LocalDate.Max(row.FromDay, next), row.ToDay, successor));
        }
    }
}
