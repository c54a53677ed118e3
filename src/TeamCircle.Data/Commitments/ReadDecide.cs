using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads what people need before them to decide about something not given.</summary>
public sealed class ReadDecide(Portal portal, TimeProvider clock)
{
    /// <summary>Null where the caller is not the learner's case manager, or there is no such service or goal.</summary>
    public Task<DecidePage?> RunAsync(Caller caller, int? service, int? goal, int? owner, LocalDate day, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Of(caller), async db =>
        {
            var about = await DecisionAbout.FindAsync(db, caller.AgencyId, service, goal, owner, day, stop);
            return about is { } known && caller.IsStaff && caller.Manages(known.LearnerId) ? await ReadAsync(db, caller, known, stop) : null;
        }, stop);

    /// <summary>The day and subject of a decision, for the page that takes it back; null as above.</summary>
    public Task<DecisionRow?> DecisionAsync(Caller caller, int decision, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
        await db.Decisions.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.Id == decision, stop) is { } row
            && caller.IsStaff && caller.Manages(row.LearnerId) ? row : null, stop);

    private async Task<DecidePage?> ReadAsync(PortalDb db, Caller caller, DecisionAbout about, CancellationToken stop)
    {
        if (await Shortfall.ReadAsync(db, caller.AgencyId, about, clock, stop) is not { } shortfall)
            return null;
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var learner = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == about.LearnerId).Select(l => l.Name).SingleAsync(stop);
        var people = await DecisionPeople.ReadAsync(db, caller.AgencyId, shortfall.Today, stop);
        var line = shortfall.Line;
        return new(
            about.LearnerId, learner, line.Service?.Discipline, line.Area, line.OwnerId is { } owner ? new(owner, names[owner]) : null,
            line.Promise.Every, line.Promise.HasSessions, shortfall.Today, shortfall.Working, shortfall.ExplainedLeft,
            [.. shortfall.Missed.Select(m => new MissedOnRecord(m, names[m.ProviderId]))],
            [.. (await DecisionsAsync(db, caller.AgencyId, about, shortfall, stop)).Select(d => OnRecord(d, names))],
            [.. people.Staff.Select(s => new Colleague(s.Key, s.Value))], people.Directors.Count > 0);
    }

    private static async Task<List<DecisionRow>> DecisionsAsync(PortalDb db, int agency, DecisionAbout about, Shortfall shortfall, CancellationToken stop)
    {
        if (shortfall.Working is not { } working)
            return [];
        var (first, last) = (working.Window.Days.Start, working.Window.Days.End);
        return await db.Decisions.Where(d => d.AgencyId == agency && d.LearnerId == about.LearnerId && d.ServiceId == about.ServiceId
                && d.GoalId == about.GoalId && (about.OwnerId == null || d.OwnerId == null || d.OwnerId == about.OwnerId)
                && d.OnDay >= first && d.OnDay <= last)
            .OrderByDescending(d => d.Id).ToListAsync(stop);
    }

    private static DecisionOnRecord OnRecord(DecisionRow d, Dictionary<int, string> names) => new(
        d.Id, d.Live, d.Kind, d.Amount, d.Sessions, d.DecidedOn, [.. d.DecidedBy.Select(p => names.GetValueOrDefault(p, "somebody"))],
        d.OthersPresent, d.FamilyToldOn, d.ByDay, d.Note, d.TakenBackReason, names.GetValueOrDefault(d.RecordedBy, "somebody"));
}
