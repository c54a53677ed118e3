using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Papers;

/// <param name="Dates">What is open, by day.</param>
/// <param name="Calendar">To count the school days before each.</param>
/// <param name="Before">What was done, moved or taken back, the latest first.</param>
/// <param name="IsQuiet">Nobody is asked to act for the learner.</param>
public sealed record DatesPage(int LearnerId, string Learner, IReadOnlyList<BoundDate> Dates, SchoolCalendar Calendar, IReadOnlyList<PastDate> Before, bool MayKeep, bool IsQuiet);

/// <summary>A day that binds no longer.</summary>
/// <param name="DoneOn">Null where it was moved or taken back, with <paramref name="DoneBy"/>.</param>
/// <param name="Word">What came of it, or why it was moved or taken back.</param>
/// <param name="MovedTo">The day that stands in its place; null where it was done or taken back.</param>
public sealed record PastDate(BoundKind Kind, LocalDate Due, string RestsOn, LocalDate? DoneOn, string? DoneBy, string? Word, LocalDate? MovedTo);

/// <summary>One open day that people keep, for the page on which it is done, moved or taken back.</summary>
public sealed record OpenDate(int LearnerId, string Learner, BoundDate Date, string EnteredBy, int Version);

/// <summary>An open day in a list over learners.</summary>
/// <param name="Learner">The name; for whoever reads a whole agency the code.</param>
public sealed record ListedDate(BoundDate Date, string Learner);

/// <summary>Reads the days that bind.</summary>
public sealed class ReadDates(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<DatesPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = scope.AgencyId;
        var found = await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner)
            .Select(l => new { l.Name, IsQuiet = db.Quiets.Any(q => q.AgencyId == l.AgencyId && q.LearnerId == l.Id && q.EndedAt == null) }).SingleOrDefaultAsync(stop);
        if (found is null)
            return null;
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        return new DatesPage(learner, found.Name, await DateFacts.ReadAsync(db, agency, [learner], rules.Periods, caller.Today, stop), rules.Calendar,
            await BeforeAsync(db, agency, learner, stop), BoundDates.MayKeep(caller, learner), found.IsQuiet);
    }, stop);

    /// <summary>What is open of one learner, by day.</summary>
    public Task<IReadOnlyList<BoundDate>> OpenAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => DateFacts.ReadAsync(db, scope.AgencyId, [learner], caller.Today, stop), stop);

    /// <summary>Null where it is not open any more, or for whoever does not keep the learner's days.</summary>
    public Task<OpenDate?> OneAsync(Caller caller, Scope scope, int learner, int date, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        if (await FindAsync(db, caller, learner, date, stop) is not { DoneOn: null, Live: true } row)
            return null;
        var name = await db.Learners.Where(l => l.AgencyId == row.AgencyId && l.Id == learner).Select(l => l.Name).SingleAsync(stop);
        var by = await db.People.Where(p => p.AgencyId == row.AgencyId && p.Id == row.EnteredBy).Select(p => p.Name).SingleOrDefaultAsync(stop);
        return new OpenDate(learner, name, DateFacts.Kept(row), by ?? "a colleague", row.Version);
    }, stop);

    /// <summary>What is open of all learners in reach, by day. Who reads as an agency finds codes, and no words that people wrote; who reads as a person
    /// finds no learner who is quiet, since nobody is asked to act for them.</summary>
    public Task<IReadOnlyList<ListedDate>> AllAsync(Caller caller, Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var whole = scope.Wall != Wall.Person;
        if (!whole)
            await QuietLearners.LeaveOutAsync(db, caller, stop);
        var learners = await db.Learners.Where(l => l.AgencyId == scope.AgencyId).ToDictionaryAsync(l => l.Id, l => whole ? l.Code : l.Name, stop);
        var dates = await DateFacts.ReadAsync(db, scope.AgencyId, whole ? null : learners.Keys, caller.Today, stop);
        return (IReadOnlyList<ListedDate>)[.. dates.Select(d => new ListedDate(whole && (d.IsKept || d.Kind == BoundKind.RoutineReview) ? d with { About = null, Note = null } : d, learners[d.Learner]))];
    }, stop);

    /// <summary>How many days of a case manager's learners have passed or come within 30 days.</summary>
    internal static async Task<int> NearAsync(PortalDb db, Together all, Caller caller)
    {
        var managed = caller.Learners.Where(caller.Manages).ToList();
        return managed.Count == 0 ? 0 : (await DateFacts.ReadAsync(db, all, caller.AgencyId, managed, null, caller.Today))
            .Count(d => BoundDates.Waits(d, caller.Today));
    }

    /// <summary>For whoever keeps the learner's days, also one that is not open any more; null otherwise.</summary>
    internal static async Task<BoundDateRow?> FindAsync(PortalDb db, Caller caller, int learner, int date, CancellationToken stop) =>
        BoundDates.MayKeep(caller, learner)
            ? await db.BoundDates.IgnoreQueryFilters().SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.LearnerId == learner && d.Id == date, stop) : null;

    private static async Task<IReadOnlyList<PastDate>> BeforeAsync(PortalDb db, int agency, int learner, CancellationToken stop)
    {
        var rows = await (
            from d in db.BoundDates.IgnoreQueryFilters()
            where d.AgencyId == agency && d.LearnerId == learner && (!d.Live || d.DoneOn != null)
            orderby d.Id descending
            select new
            {
                Row = d,
                By = db.People.Where(p => p.AgencyId == d.AgencyId && p.Id == d.DoneBy).Select(p => p.Name).FirstOrDefault(),
                MovedTo = d.Live ? null : db.BoundDates.IgnoreQueryFilters().Where(n => n.AgencyId == d.AgencyId && n.FollowsId == d.Id).Select(n => (LocalDate?)n.DueOn).FirstOrDefault(),
            }).ToListAsync(stop);
        return [.. rows.Select(r => new PastDate(r.Row.Kind, r.Row.DueOn, r.Row.RestsOn, r.Row.DoneOn, r.By, r.Row.DoneWord ?? r.Row.TakenBackReason, r.MovedTo))];
    }
}
