using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Commitments;

/// <summary>What lacks in one window of a service or of a goal's probes, and what visits not given say about it.</summary>
/// <param name="Line">The service or probe commitment.</param>
/// <param name="Working">How the window was worked out; null where the day lies in no window with a school day.</param>
/// <param name="Missed">Visits in the window that gave less than planned.</param>
internal sealed record Shortfall(CommitmentLine Line, LocalDate Today, WindowWorking? Working, IReadOnlyList<Missed> Missed)
{
    public int Lack => Working?.Minutes.Lack ?? 0;

    /// <summary>Null where no number of sessions is promised.</summary>
    public int? SessionsLack => Working is { } w && Line.Promise.HasSessions ? w.Sessions.Lack : null;

    /// <summary>What reasons of the child, the family or nobody explain, and nobody has decided not owed yet.</summary>
    public int ExplainedLeft => Left(Working?.Minutes ?? default, Missed.Select(m => new MissedVisit(m.Amount, m.Reason)));

    public int SessionsExplainedLeft =>
        Left(Working?.Sessions ?? default, Missed.Where(m => m.IsWhole).Select(m => new MissedVisit(1, m.Reason)));

    // What nobody explained still lacks last: a make-up is taken to have paid for what was explained first.
    private static int Left(WindowBalance window, IEnumerable<MissedVisit> missed)
    {
        var unexplained = Math.Max(0, window.Owed - (window.Given - window.Paid) - DecisionRules.Explained(missed));
        return Math.Max(0, window.Owed - window.Given - unexplained - window.DecidedNotOwed);
    }

    /// <summary>Null where the learner has no such service or goal, or nothing is asked of that owner.</summary>
    public static async Task<Shortfall?> ReadAsync(PortalDb db, int agency, DecisionAbout about, TimeProvider clock, CancellationToken stop)
    {
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        var today = AgencyClock.Today(clock, rules.Agency.TimeZone);
        var facts = await new ReadFacts(db, new(agency, [about.LearnerId]), rules, Day.Of(today)).RunAsync(stop);
        var day = Day.Of(about.OnDay);
        var lines = Enumerable.Range(0, facts.Lines.Count).Where(i => about.IsAbout(facts.Lines[i])).ToList();
        if (lines.Count == 0)
            return null;
        var line = lines.FindIndex(i => facts.Lines[i].Windows.Find(day) >= 0) is var found and >= 0 ? lines[found] : lines[0];
        var working = Explain(facts, line, day, Day.Of(today));
        var missed = working is null ? [] : await MissedAsync(db, agency, about, facts.Lines[line], working.Window.Days, stop);
        return new(facts.Lines[line], today, working, missed);
    }

    /// <summary>Judges the one window, as if it were a reporting period of its own.</summary>
    private static WindowWorking? Explain(CommitmentFacts facts, int line, int day, int today)
    {
        var windows = facts.Lines[line].Windows;
        if (windows.Find(day) is not (var window and >= 0))
            return null;
        var at = new Judging(windows.All[window].Days, today, facts.Rules.Policies);
        return Ledger.Explain(facts.Of(line, at), at).Closing.Single(w => w.Index == window);
    }

    private static async Task<List<Missed>> MissedAsync(
        PortalDb db, int agency, DecisionAbout about, CommitmentLine line, DateRange days, CancellationToken stop)
    {
        var (first, last) = (days.Start, days.End);
        var owners = line.Named.Select(n => n.PersonId).ToList();
        var rows = await (
            from v in db.Visits
            where v.AgencyId == agency && v.LearnerId == about.LearnerId && v.Live && v.AwardId == null && v.OnDay >= first && v.OnDay <= last
                && (about.ServiceId == null ? v.ServiceId != null && owners.Contains(v.ProviderId) : v.ServiceId == about.ServiceId)
            from s in db.Sessions.Where(s => s.AgencyId == agency && s.VisitId == v.Id && s.Live).DefaultIfEmpty()
            orderby v.OnDay, v.StartTime
            select new { Visit = v, Session = s }).AsNoTracking().ToListAsync(stop);
        return [.. rows.Select(r => Of(r.Visit, r.Session, about.ServiceId is null)).OfType<Missed>()];
    }

    /// <summary>Null for a visit that gave what was planned, or is still to come.</summary>
    private static Missed? Of(VisitRow visit, Sessions.SessionRow? session, bool isProbe)
    {
        var planned = visit.PlannedMinutes ?? visit.Minutes;
        if (session is null)
            return visit.State == VisitState.CalledOff ? new(visit.Id, visit.OnDay, visit.ProviderId, isProbe ? 1 : planned, visit.CalledOff, true) : null;
        if (session.Outcome != VisitOutcome.Given)
            return new(visit.Id, visit.OnDay, visit.ProviderId, isProbe ? 1 : planned, session.Reason, true);
        var isShort = !isProbe && session.Reason is not null && session.Credited < planned;
        return isShort ? new(visit.Id, visit.OnDay, visit.ProviderId, planned - session.Credited, session.Reason, false) : null;
    }
}

/// <summary>A visit that gave less than planned.</summary>
/// <param name="Amount">Minutes, or 1 for a probe.</param>
/// <param name="IsWhole">Whether nothing at all was given.</param>
public sealed record Missed(Guid Visit, LocalDate OnDay, int ProviderId, int Amount, Reason? Reason, bool IsWhole);

/// <summary>What a decision is about: a window of a service, or of a goal's probes (of one owner, or of all together).</summary>
internal readonly record struct DecisionAbout(int LearnerId, int? ServiceId, int? GoalId, int? OwnerId, LocalDate OnDay)
{
    public bool IsAbout(CommitmentLine line) => ServiceId is { } service
        ? !line.IsProbes && line.Id == service
        : line.IsProbes && line.Id == GoalId && (OwnerId is null || line.OwnerId == OwnerId);

    /// <summary>Null where exactly one of service and goal is not named, or the scope does not reach it.</summary>
    public static async Task<DecisionAbout?> FindAsync(
        PortalDb db, int agency, int? service, int? goal, int? owner, LocalDate day, CancellationToken stop)
    {
        if (service is null == goal is null)
            return null;
        var learner = service is not null
            ? await db.Services.Where(s => s.AgencyId == agency && s.Id == service && s.Live).Select(s => (int?)s.LearnerId).SingleOrDefaultAsync(stop)
            : await db.Goals.Where(g => g.AgencyId == agency && g.Id == goal && g.Live).Select(g => (int?)g.LearnerId).SingleOrDefaultAsync(stop);
        return learner is { } id ? new(id, service, goal, goal is null ? null : owner, day) : null;
    }
}
