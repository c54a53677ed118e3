using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Moves;

/// <summary>Somebody's last day, with the list of what is to be decided: all of it for the administrator and for them, their own learners' for a case manager.</summary>
/// <param name="Last">Null where none is set.</param>
/// <param name="Items">Nothing without a last day.</param>
/// <param name="HandedOver">Learner by learner, what was handed over and not undone.</param>
/// <param name="Periods">The reporting period of each report in the list.</param>
/// <param name="IsAll">Whether the list is the whole of it.</param>
public sealed record LastDayPage(
    int Person, string Name, LastDayShown? Last, IReadOnlyList<HandOverItem> Items, IReadOnlyList<HandedOverShown> HandedOver, IReadOnlyList<FiledShown> Filed,
    IReadOnlyDictionary<int, string> Learners, IReadOnlyDictionary<int, string> Periods, bool IsAll)
{
    /// <summary>The learners of whom something of one act is left, in the order of their names.</summary>
    public IEnumerable<IGrouping<int, HandOverItem>> ByLearner => Items.Where(i => HandOverList.IsOfLearner(i.Kind) && i.Learner is not null)
        .GroupBy(i => i.Learner!.Value).OrderBy(g => Learners.GetValueOrDefault(g.Key), StringComparer.CurrentCulture);

    public IEnumerable<HandOverItem> Of(HandOverKind kind) => Items.Where(i => i.Kind == kind);
}

/// <param name="FinishedOn">When the hand-over was marked as finished; null before.</param>
public sealed record LastDayShown(int Id, LocalDate Day, string SetBy, LocalDate? FinishedOn, string? FinishedBy, int Version);

/// <param name="To">The successor; null: nobody yet.</param>
/// <param name="MayUndo">For the learner's case manager, until the successor begins; of several hand-overs of a learner the last one only.</param>
public sealed record HandedOverShown(int Id, int LearnerId, string? To, string? Manager, LocalDate From, string By, LocalDate On, bool MayUndo, int Version);

/// <summary>What can no longer be written.</summary>
/// <param name="What">Their own visit, another person's entry to confirm or countersign, or a report.</param>
public sealed record FiledShown(int LearnerId, string Person, HandOverKind What, string Words, string By, LocalDate On);

/// <summary>A last day that waits for somebody.</summary>
public sealed record LastDayWaits(int Person, string Name, LocalDate Day);

/// <summary>What a case manager needs before them to hand one learner over.</summary>
/// <param name="Items">What is left with this learner.</param>
/// <param name="Colleagues">Who can give services; <paramref name="Managers"/>: who can manage a learner.</param>
public sealed record HandOverPage(
    int Learner, string LearnerName, int Person, string Name, LastDayShown Last, IReadOnlyList<HandOverItem> Items, IReadOnlyList<NamedId> Colleagues,
    IReadOnlyList<NamedId> Managers, IReadOnlyDictionary<int, string> Periods)
{
    /// <summary>What was handed over and not undone.</summary>
    public IReadOnlyList<HandedOverShown> HandedOver { get; init; } = [];

    public bool Has(HandOverKind kind) => Items.Any(i => i.Kind == kind);
}

/// <summary>Reads last days.</summary>
public sealed class ReadLastDay(Portal portal)
{
    /// <summary>Null where there is no such person.</summary>
    public Task<LastDayPage?> RunAsync(Caller caller, Scope scope, int person, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller).PageAsync(person, stop), stop);

    /// <summary>Null where the caller is not the learner's case manager or the person has no last day.</summary>
    public Task<HandOverPage?> OfLearnerAsync(Caller caller, Scope scope, int learner, int person, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller).OfLearnerAsync(learner, person, stop), stop);

    /// <summary>What was filed about a visit or a report.</summary>
    public Task<IReadOnlyList<FiledShown>> FiledAsync(Scope scope, Guid? visit, int? report, CancellationToken stop = default) => portal.ReadAsync(
        scope, db => FiledAsync(db, scope.AgencyId, f => (visit != null && f.VisitId == visit) || (report != null && f.ReportId == report), stop), stop);

    /// <summary>Last days that are near or past and not finished: their own, for an administrator all, for a case manager those with learners of theirs of whom something is left.</summary>
    internal static async Task<IReadOnlyList<LastDayWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var (agency, near) = (caller.AgencyId, caller.Today.PlusDays(LastDayRules.WarningDays));
        var days = await all.ListAsync(
            from d in db.LastDays
            join p in db.People on new { d.AgencyId, Id = d.PersonId } equals new { p.AgencyId, p.Id }
            where d.AgencyId == agency && d.FinishedAt == null && d.Day <= near
            orderby d.Day, p.Name
            select new LastDayWaits(d.PersonId, p.Name, d.Day));
        if (days.Count == 0 || caller.Is(Role.Administrator))
            return days;
        var theirs = await LeftWithAsync(db, all, agency, [.. caller.Learners.Where(caller.Manages)], caller.Today);
        return [.. days.Where(d => d.Person == caller.PersonId || theirs.Contains(d.Person))];
    }

    /// <summary>Who leaves something with one of some learners.</summary>
    private static async Task<IReadOnlySet<int>> LeftWithAsync(PortalDb db, Together all, int agency, int[] learners, LocalDate today) => (await all.ListAsync(db.LastDays
        .Where(d => d.AgencyId == agency && d.FinishedAt == null
            && (db.Assignments.Any(a => a.AgencyId == agency && learners.Contains(a.LearnerId) && a.PersonId == d.PersonId && a.ToDay > d.Day
                    && db.Services.Any(s => s.AgencyId == agency && s.Id == a.ServiceId && s.ToDay > d.Day))
                || db.GoalOwners.Any(o => o.AgencyId == agency && learners.Contains(o.LearnerId) && o.PersonId == d.PersonId && o.ToDay > d.Day
                    && db.Goals.Any(g => g.AgencyId == agency && g.Id == o.GoalId && g.ToDay > d.Day))
                || db.Relations.Any(r => r.AgencyId == agency && learners.Contains(r.LearnerId) && (r.ToDay == null || r.ToDay > d.Day)
                    && ((r.PersonId == d.PersonId && r.Kind == Relation.CaseManager) || (r.SupervisorId == d.PersonId && r.Kind == Relation.Assistant)))
                || db.Things.Any(t => t.AgencyId == agency && learners.Contains(t.LearnerId) && t.OwnerId == d.PersonId && t.EndedOn == null)
                || db.Sessions.Any(s => s.AgencyId == agency && learners.Contains(s.LearnerId) && s.SupervisorId == d.PersonId && s.Live && s.CountersignedAt == null
                    && !db.FiledItems.Any(f => f.AgencyId == agency && f.PersonId == d.PersonId && f.VisitId == s.VisitId))
                || db.Visits.Any(v => v.AgencyId == agency && learners.Contains(v.LearnerId) && v.ProviderId == d.PersonId && v.Live && v.State == VisitState.Planned
                    && (v.OnDay > d.Day || (d.Day < today && v.OnDay < today)))))
        .Select(d => new { d.PersonId }))).Select(d => d.PersonId).ToHashSet();

    private static async Task<IReadOnlyList<FiledShown>> FiledAsync(
        PortalDb db, int agency, Expression<Func<FiledItemRow, bool>> which, CancellationToken stop)
    {
        var rows = await (
            from f in db.FiledItems.Where(f => f.AgencyId == agency).Where(which)
            join p in db.People on new { f.AgencyId, Id = f.PersonId } equals new { p.AgencyId, p.Id }
            join b in db.People on new { f.AgencyId, Id = f.FiledBy } equals new { b.AgencyId, b.Id }
            join a in db.Agencies on f.AgencyId equals a.Id
            orderby f.Id
            select new
            {
                f,
                p.Name,
                By = b.Name,
                a.TimeZone,
                IsOwn = db.Visits.Any(v => v.AgencyId == f.AgencyId && v.Id == f.VisitId && v.ProviderId == f.PersonId),
                IsPartner = db.Sessions.Any(s => s.AgencyId == f.AgencyId && s.VisitId == f.VisitId && s.Live && s.PartnerId == f.PersonId),
            }).ToListAsync(stop);
        return [.. rows.Select(r => new FiledShown(
            r.f.LearnerId, r.Name,
            r.f.ReportId is not null ? HandOverKind.Report : r.IsOwn ? HandOverKind.VisitNotLogged : r.IsPartner ? HandOverKind.ToConfirm : HandOverKind.Countersign, r.f.Words, r.By, r.f.FiledAt.InZone(DateTimeZoneProviders.Tzdb[r.TimeZone]).Date))];
    }

    private sealed class Query(PortalDb db, Caller caller)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<LastDayPage?> PageAsync(int person, CancellationToken stop)
        {
            if (await db.People.Where(p => p.AgencyId == _agency && p.Id == person).Select(p => p.Name).SingleOrDefaultAsync(stop) is not { } name)
                return null;
            var isAll = caller.Is(Role.Administrator) || caller.PersonId == person;
            if (await LastAsync(person, stop) is not { } last)
                return new(person, name, null, [], [], [], new Dictionary<int, string>(), new Dictionary<int, string>(), isAll);
            bool Shows(int? learner) => isAll || (learner is { } one && caller.Manages(one));
            var items = (await new LeftBehind(db, _agency, last.Row, caller.Today).ListAsync(stop)).Where(i => Shows(i.Learner)).ToList();
            var handed = (await HandedOverAsync(person, last.Row.Day, stop)).Where(h => Shows(h.LearnerId)).ToList();
            var filed = (await FiledAsync(db, _agency, f => f.PersonId == person, stop)).Where(f => Shows(f.LearnerId)).ToList();
            return new(person, name, last.Shown, items, handed, filed, await LearnersAsync(stop), await PeriodsAsync(items, stop), isAll);
        }

        public async Task<HandOverPage?> OfLearnerAsync(int learner, int person, CancellationToken stop)
        {
            if (!caller.Manages(learner) || await LastAsync(person, stop) is not { } last)
                return null;
            var name = await db.People.Where(p => p.AgencyId == _agency && p.Id == person).Select(p => p.Name).SingleAsync(stop);
            var items = (await new LeftBehind(db, _agency, last.Row, caller.Today).ListAsync(stop)).Where(i => i.Learner == learner).ToList();
            var roles = await ReadStaff.RolesAsync(db, _agency, caller.Today, stop);
            var givers = await ReadStaff.GiversAsync(db, _agency, caller.Today, stop);
            return new(learner, (await LearnersAsync(stop))[learner], person, name, last.Shown, items, [.. givers.Where(g => g.Id != person)],
                [.. givers.Where(g => g.Id != person && roles[g.Id].Contains(Role.CaseManager))], await PeriodsAsync(items, stop))
            {
                HandedOver = [.. (await HandedOverAsync(person, last.Row.Day, stop)).Where(h => h.LearnerId == learner)],
            };
        }

        private async Task<(LastDayRow Row, LastDayShown Shown)?> LastAsync(int person, CancellationToken stop)
        {
            var found = await (
                from d in db.LastDays
                join s in db.People on new { d.AgencyId, Id = d.SetBy } equals new { s.AgencyId, s.Id }
                join a in db.Agencies on d.AgencyId equals a.Id
                where d.AgencyId == _agency && d.PersonId == person
                select new { d, s.Name, a.TimeZone, Finisher = db.People.Where(p => p.AgencyId == d.AgencyId && p.Id == d.FinishedBy).Select(p => p.Name).FirstOrDefault() })
                .SingleOrDefaultAsync(stop);
            return found is null ? null : (found.d, new(
                found.d.Id, found.d.Day, found.Name, found.d.FinishedAt?.InZone(DateTimeZoneProviders.Tzdb[found.TimeZone]).Date, found.Finisher, found.d.Version));
        }

        private async Task<List<HandedOverShown>> HandedOverAsync(int person, LocalDate lastDay, CancellationToken stop)
        {
            var rows = await (
                from h in db.LearnerHandOvers
                join s in db.People on new { h.AgencyId, Id = h.DoneBy } equals new { s.AgencyId, s.Id }
                join a in db.Agencies on h.AgencyId equals a.Id
                where h.AgencyId == _agency && h.PersonId == person && h.LastDay == lastDay && h.UndoneAt == null
                orderby h.Id
                select new
                {
                    h,
                    By = s.Name,
                    a.TimeZone,
                    To = db.People.Where(p => p.AgencyId == h.AgencyId && p.Id == h.ToPersonId).Select(p => p.Name).FirstOrDefault(),
                    Manager = db.People.Where(p => p.AgencyId == h.AgencyId && p.Id == h.ManagerId).Select(p => p.Name).FirstOrDefault(),
                }).ToListAsync(stop);
            return [.. rows.Select(r => new HandedOverShown(
                r.h.Id, r.h.LearnerId, r.To, r.Manager, r.h.FromDay, r.By, r.h.DoneAt.InZone(DateTimeZoneProviders.Tzdb[r.TimeZone]).Date,
                caller.Manages(r.h.LearnerId) && LastDayRules.MayUndo(r.h.FromDay, caller.Today) && r.h.Id == rows.Last(o => o.h.LearnerId == r.h.LearnerId).h.Id,
                r.h.Version))];
        }

        private Task<Dictionary<int, string>> LearnersAsync(CancellationToken stop) =>
            db.Learners.Where(l => l.AgencyId == _agency).ToDictionaryAsync(l => l.Id, l => l.Name, stop);

        /// <summary>The reporting periods of reports in the list.</summary>
        private async Task<IReadOnlyDictionary<int, string>> PeriodsAsync(List<HandOverItem> items, CancellationToken stop)
        {
            int[] reports = [.. items.Where(i => i.Kind == HandOverKind.Report).Select(i => i.Id!.Value)];
            return await (
                from r in db.Reports
                join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
                where r.AgencyId == _agency && reports.Contains(r.Id)
                select new { r.Id, p.Name }).ToDictionaryAsync(r => r.Id, r => r.Name, stop);
        }
    }
}
