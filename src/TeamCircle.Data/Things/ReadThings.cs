using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Things;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Things;

/// <summary>Reads what was promised to a learner, and how it stands.</summary>
public sealed class ReadThings(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<ThingsPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await NameAsync(db, caller, learner, stop) is not { } name)
            return null;
        var rows = await db.Things.Where(t => t.AgencyId == caller.AgencyId && t.LearnerId == learner).ToListAsync(stop);
        var events = (await db.ThingEvents.Where(e => e.AgencyId == caller.AgencyId && e.LearnerId == learner).ToListAsync(stop)).ToLookup(e => e.ThingId);
        var names = await NamesAsync(db, caller, stop);
        var calendar = (await AgencyRules.ReadAsync(db, caller.AgencyId, stop)).Calendar;
        var shown = rows.Select(t => Shown(t, events[t.Id], names, calendar, caller.Today));
        return new ThingsPage(learner, name, ThingRules.MayPromise(caller, learner),
            [.. shown.OrderBy(t => t.EndedOn is not null).ThenBy(t => !t.Waits).ThenBy(t => t.Name, StringComparer.OrdinalIgnoreCase)]);
    }, stop);

    /// <summary>Null where there is no such thing of that learner.</summary>
    public Task<ThingPage?> OneAsync(Caller caller, Scope scope, int learner, int thing, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await NameAsync(db, caller, learner, stop) is not { } name || await FindAsync(db, caller, learner, thing, stop) is not { } row)
            return null;
        var events = await db.ThingEvents.IgnoreQueryFilters().Where(e => e.AgencyId == caller.AgencyId && e.LearnerId == learner && e.ThingId == thing).ToListAsync(stop);
        var names = await NamesAsync(db, caller, stop);
        var calendar = (await AgencyRules.ReadAsync(db, caller.AgencyId, stop)).Calendar;
        return new ThingPage(
            learner, name, Shown(row, events.Where(e => e.Live), names, calendar, caller.Today),
            [.. events.OrderByDescending(e => e.OnDay).ThenByDescending(e => e.Id).Select(e =>
                new ThingEntryShown(e.Id, e.Act, e.OnDay, e.Words, e.Meanwhile, e.Place, names.GetValueOrDefault(e.EnteredBy, "somebody"), e.Live, e.TakenBackReason))],
            [.. (await GoalsAsync(db, caller, learner, stop)).Where(g => row.Goals.Contains(g.Id))], [.. (await RoutinesAsync(db, caller, learner, stop)).Where(r => row.Routines.Contains(r.Id))],
            ThingRules.MayPromise(caller, learner), ThingRules.MayNote(caller, learner));
    }, stop);

    /// <summary>For the form of a promise; null where the reader does not write it, or where there is no such thing.</summary>
    /// <param name="thing">Null for a new one.</param>
    public async Task<ThingChoices?> ChoicesAsync(Caller caller, Scope scope, int learner, int? thing, CancellationToken stop = default) =>
        !ThingRules.MayPromise(caller, learner) ? null : await portal.ReadAsync(scope, async db =>
        {
            var row = thing is { } id ? await FindAsync(db, caller, learner, id, stop) : null;
            if ((thing is not null && row is null) || await NameAsync(db, caller, learner, stop) is not { } name)
                return null;
            var team = await Sessions.TeamMember.ReadAsync(db, caller.AgencyId, [learner], caller.Today, stop);
            return new ThingChoices(
                learner, name, row is null ? null : Stands(row), [.. team.Select(m => new NamedId(m.PersonId, m.Name))],
                await GoalsAsync(db, caller, learner, stop), await RoutinesAsync(db, caller, learner, stop));
        }, stop);

    /// <summary>Things not in place, and things out of order, that are the reader's job, and for a case manager all of their learners; those that have waited longest first.</summary>
    internal static async Task<IReadOnlyList<ThingWaits>> WaitingAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var managed = caller.Learners.Where(caller.Manages).ToList();
        return await OpenAsync(db, db.Things.Where(t => t.AgencyId == caller.AgencyId && (t.OwnerId == caller.PersonId || managed.Contains(t.LearnerId))), stop);
    }

    /// <summary>The same of one learner, whoever's job it is. One statement.</summary>
    internal static Task<IReadOnlyList<ThingWaits>> OfLearnerAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        OpenAsync(db, db.Things.Where(t => t.AgencyId == agency && t.LearnerId == learner), stop);

    private static async Task<IReadOnlyList<ThingWaits>> OpenAsync(PortalDb db, IQueryable<ThingRow> things, CancellationToken stop)
    {
        var rows = await WithEventsAsync(db, things.Where(t => t.EndedOn == null), stop);
        return [.. rows.Where(r => r.Story.State is ThingState.Promised or ThingState.OutOfOrder)
            .Select(r => new ThingWaits(r.Thing.Id, r.Thing.LearnerId, r.Thing.Name, r.Story.Out is not null, r.Story.Out?.From ?? r.Thing.PromisedOn, r.Story.Out is null ? r.Thing.DueOn : null))
            .OrderBy(w => w.Since).ThenBy(w => w.Id)];
    }

    /// <summary>What of the things that routines use is out of order today, by routine. One statement.</summary>
    internal static async Task<ILookup<int, ThingOut>> OutAsync(PortalDb db, int agency, IReadOnlyCollection<int> learners, LocalDate today, CancellationToken stop)
    {
        var rows = await WithEventsAsync(db, db.Things.Where(t => t.AgencyId == agency && learners.Contains(t.LearnerId) && t.EndedOn == null && t.Routines.Length > 0), stop);
        return rows.Where(r => r.Story.Out is { } outage && outage.From <= today)
            .SelectMany(r => r.Thing.Routines.Select(routine => (routine, Out: new ThingOut(r.Thing.Id, r.Thing.Name, r.Story.Out!, r.Story.Loaner?.What))))
            .ToLookup(r => r.routine, r => r.Out);
    }

    /// <summary>When a thing that bears on a goal was out of order, oldest first; also of promises that have ended. One statement.</summary>
    internal static async Task<IReadOnlyList<GoalOutage>> OfGoalAsync(PortalDb db, int agency, int learner, int goal, LocalDate today, CancellationToken stop)
    {
        var rows = await WithEventsAsync(db, db.Things.Where(t => t.AgencyId == agency && t.LearnerId == learner && t.Goals.Contains(goal)), stop);
        return [.. rows.SelectMany(r => r.Story.Outages.Select(o => new GoalOutage(
                r.Thing.Id, r.Thing.Name, o.From, o.Until ?? LocalDate.Max(o.From, today), o.Until is null, o.Happened,
                r.Story.Loaners.FirstOrDefault(l => l.From <= (o.Until ?? today) && (l.Until is null || l.Until >= o.From))?.What)))
            .OrderBy(o => o.From).ThenBy(o => o.Thing)];
    }

    internal static Task<ThingRow?> FindAsync(PortalDb db, Caller caller, int learner, int thing, CancellationToken stop) =>
        db.Things.SingleOrDefaultAsync(t => t.AgencyId == caller.AgencyId && t.LearnerId == learner && t.Id == thing, stop);

    /// <summary>What stands, the oldest first.</summary>
    internal static Task<List<ThingEventRow>> EventsAsync(PortalDb db, ThingRow thing, CancellationToken stop) => db.ThingEvents
        .Where(e => e.AgencyId == thing.AgencyId && e.LearnerId == thing.LearnerId && e.ThingId == thing.Id).OrderBy(e => e.OnDay).ThenBy(e => e.Id).ToListAsync(stop);

    private static async Task<IReadOnlyList<(ThingRow Thing, ThingStory Story)>> WithEventsAsync(PortalDb db, IQueryable<ThingRow> things, CancellationToken stop) =>
        [.. (await things.Select(t => new { Thing = t, Events = db.ThingEvents.Where(e => e.AgencyId == t.AgencyId && e.LearnerId == t.LearnerId && e.ThingId == t.Id).ToList() })
            .ToListAsync(stop)).Select(t => (t.Thing, ThingStory.Of(t.Events.Select(e => e.Entry))))];

    private static ThingShown Shown(ThingRow row, IEnumerable<ThingEventRow> events, Dictionary<int, string> names, SchoolCalendar calendar, LocalDate today)
    {
        var story = ThingStory.Of(events.Select(e => e.Entry));
        var first = events.Where(e => e.Act == ThingAct.InPlace).Select(e => (LocalDate?)e.OnDay).Min();
        return new(
            row.Id, row.Kind, row.Name, row.PlanWords, new(row.OwnerId, names.GetValueOrDefault(row.OwnerId, "somebody")), row.PromisedOn, row.DueOn, story,
            ThingDays.Waited(row.PromisedOn, first, row.EndedOn ?? today, calendar), [.. story.Outages.Select(o => (o, ThingDays.OutOfOrder(o, row.EndedOn ?? today, calendar)))],
            row.EndedOn, row.EndedWhy, row.Version);
    }

    private static PromiseThing.Input Stands(ThingRow row) => new()
    {
        Learner = row.LearnerId,
        Thing = row.Id,
        Version = row.Version,
        Kind = row.Kind,
        Name = row.Name,
        PlanWords = row.PlanWords,
        Owner = row.OwnerId,
        PromisedOn = row.PromisedOn,
        DueOn = row.DueOn,
        Goals = row.Goals,
        Routines = row.Routines,
    };

    private static Task<string?> NameAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) =>
        db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => (string?)l.Name).SingleOrDefaultAsync(stop);

    private static Task<Dictionary<int, string>> NamesAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);

    private static Task<List<NamedId>> GoalsAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) => db.Goals
        .Where(g => g.AgencyId == caller.AgencyId && g.LearnerId == learner).OrderBy(g => g.Position).ThenBy(g => g.Id).Select(g => new NamedId(g.Id, g.Area)).ToListAsync(stop);

    private static Task<List<NamedId>> RoutinesAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) => db.Routines
        .Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Live).OrderBy(r => r.Name).Select(r => new NamedId(r.Id, r.Name)).ToListAsync(stop);
}
