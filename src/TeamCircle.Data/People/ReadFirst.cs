using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.People;

/// <summary>What somebody reads before they work with a learner for the first time: all that keeps the learner safe and understood.</summary>
/// <param name="Parts">Of "How we teach", in its order; those that nobody has written too.</param>
/// <param name="Holds">Those that stand, newest first.</param>
/// <param name="Routines">Those of which a card is written.</param>
/// <param name="Visits">The reader's own of today.</param>
/// <param name="MustSay">Whether the reader stands in for somebody and has not said today that they read it.</param>
public sealed record ReadFirstPage(
    int Learner, string Name, IReadOnlyList<ReadFirstPart> Parts, IReadOnlyList<HoldShown> Holds, IReadOnlyList<ReadFirstRoutine> Routines,
    IReadOnlyList<ReadFirstVisit> Visits, bool MustSay);

/// <param name="Text">Null where nobody has written it.</param>
public sealed record ReadFirstPart(TeachPart Part, string? Text, string? By, LocalDate? On);

/// <param name="IsToday">Whether it is planned at one of the reader's visits of today.</param>
/// <param name="Review">Where the review of its card stands.</param>
public sealed record ReadFirstRoutine(int Id, string Name, bool IsToday, RoutineContent Card, CardReview Review);

public sealed record ReadFirstVisit(Guid Id, LocalTime Start, int Minutes, VisitKind Kind, Discipline? Discipline, Place Place, VisitState State);

/// <summary>Reads the page that a substitute opens before anything else; nine statements.</summary>
public sealed class ReadFirst(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<ReadFirstPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop);
        return name is null ? null : new ReadFirstPage(
            learner, name, await PartsAsync(db, caller.AgencyId, learner, stop),
            [.. (await HoldFacts.ReadAsync(db, caller.AgencyId, [learner], ended: false, stop))[learner]], await RoutinesAsync(db, caller, learner, stop),
            await VisitsAsync(db, caller, learner, stop), caller.StandsIn(learner) && !(await ReadAsync(db, caller, stop)).Contains(learner));
    }, stop);

    /// <summary>The learners of whom a person has said today that they read this.</summary>
    internal static async Task<IReadOnlySet<int>> ReadAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        (await db.ReadFirsts.Where(r => r.AgencyId == caller.AgencyId && r.PersonId == caller.PersonId && r.OnDay == caller.Today).Select(r => r.LearnerId).ToListAsync(stop)).ToHashSet();

    /// <summary>The learners for whom a person stands in today and of whom they have not said yet that they read this.</summary>
    internal static async Task<IReadOnlySet<int>> UnreadAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        HashSet<int> standsIn = [.. caller.Learners.Where(caller.StandsIn)];
        if (standsIn.Count > 0)
            standsIn.ExceptWith(await ReadAsync(db, caller, stop));
        return standsIn;
    }

    private static async Task<IReadOnlyList<ReadFirstPart>> PartsAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var written = await (
            from p in db.TeachParts
            join who in db.People on new { p.AgencyId, Id = p.WrittenBy } equals new { who.AgencyId, who.Id }
            where p.AgencyId == agency && p.LearnerId == learner
            select new ReadFirstPart(p.Part, p.Text, who.Name, p.WrittenOn)).ToListAsync(stop);
        return [.. Enum.GetValues<TeachPart>().Select(part => written.Find(w => w.Part == part) ?? new ReadFirstPart(part, null, null, null))];
    }

    private static async Task<IReadOnlyList<ReadFirstRoutine>> RoutinesAsync(PortalDb db, Caller caller, int learner, CancellationToken stop)
    {
        var routines = await db.Routines.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Live).OrderBy(r => r.Name)
            .Select(r => new
            {
                r.Id,
                r.Name,
                IsToday = db.VisitRoutines.Any(v => v.AgencyId == r.AgencyId && v.RoutineId == r.Id && db.Visits.Any(
                    own => own.AgencyId == v.AgencyId && own.Id == v.VisitId && own.Live && own.ProviderId == caller.PersonId && own.OnDay == caller.Today)),
            }).ToListAsync(stop);
        var cards = (await CardFacts.NewestAsync(db, caller.AgencyId, [.. routines.Select(r => r.Id)], caller.Today, stop)).ToDictionary(c => c.Routine);
        return [.. routines.Where(r => cards.ContainsKey(r.Id)).OrderByDescending(r => r.IsToday).Select(r => (Routine: r, Card: cards[r.Id])).Select(r => new ReadFirstRoutine(
            r.Routine.Id, r.Routine.Name, r.Routine.IsToday, r.Card.Content, new(r.Card.Review, r.Card.By?.By, r.Card.By?.As, r.Card.By?.Note, false)))];
    }

    private static Task<List<ReadFirstVisit>> VisitsAsync(PortalDb db, Caller caller, int learner, CancellationToken stop) => (
        from v in db.Visits
        from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
        where v.AgencyId == caller.AgencyId && v.LearnerId == learner && v.Live && v.ProviderId == caller.PersonId && v.OnDay == caller.Today
        orderby v.StartTime
        select new ReadFirstVisit(v.Id, v.StartTime, v.Minutes, v.Kind, s == null ? null : s.Discipline, v.Place, v.State)).ToListAsync(stop);
}
