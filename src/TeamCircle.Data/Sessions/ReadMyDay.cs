using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Family;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Moves;
using TeamCircle.Data.Papers;
using TeamCircle.Data.People;
using TeamCircle.Data.Reports;
using TeamCircle.Data.Rights;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Sessions;

/// <summary>A person's own day: their visits, and what of theirs waits to be written down.</summary>
/// <param name="Visits">Today's, in time order, called-off ones included.</param>
/// <param name="NotLogged">Planned before today and not logged, oldest first; at most <see cref="ReadMyDay.MostListed"/>.</param>
/// <param name="NotLoggedCount">How many there are in all.</param>
/// <param name="Together">What a colleague logged as given together with this person, who has logged nothing for it.</param>
/// <param name="Declined">What this person logged as given together, and the colleague says that it was not.</param>
public sealed record MyDay(
    IReadOnlyList<OwnVisit> Visits, IReadOnlyList<OwnVisit> NotLogged, int NotLoggedCount, IReadOnlyList<TogetherShown> Together,
    IReadOnlyList<DeclinedShown> Declined)
{
    /// <summary>For a case manager: learners who have been away for so long that the team should meet.</summary>
    public IReadOnlyList<OpenAway> ToMeet { get; init; } = [];

    /// <summary>Own visits to come on days without school, and visits too close to the one before.</summary>
    public VisitChecks ToCheck { get; init; } = VisitChecks.None;

    /// <summary>How many things that a device sent need a person: one's own, and for a case manager those about their learners.</summary>
    public int SetAside { get; init; }

    /// <summary>Paragraphs, signatures and reviews of progress reports that wait for this person.</summary>
    public IReadOnlyList<ReportWaits> Reports { get; init; } = [];

    /// <summary>What families said and nobody answered yet: for a case manager, and for the provider of the visit that it is about.</summary>
    public IReadOnlyList<RemarkWaits> Remarks { get; init; } = [];

    /// <summary>For a case manager: parents' requests about a record that nobody answered yet, by their outer date.</summary>
    public IReadOnlyList<RequestWaits> Requests { get; init; } = [];

    /// <summary>For a case manager: how many days that bind have passed, or come within 30 days.</summary>
    public int DatesNear { get; init; }

    /// <summary>Things that were promised and are not in place, or out of order: those that are this person's job, and for a case manager all of their learners.</summary>
    public IReadOnlyList<ThingWaits> Things { get; init; } = [];

    /// <summary>For a case manager: learners who come of age, of whom somebody is to be told or a seat is to be decided.</summary>
    public IReadOnlyList<AgeWaits> OfAge { get; init; } = [];

    /// <summary>For a case manager: counts of periods that are over and not closed, the oldest of each learner.</summary>
    public IReadOnlyList<OpenCount> ToClose { get; init; } = [];

    /// <summary>For a director: requests to open a closed count again.</summary>
    public IReadOnlyList<ReopeningWaits> ToReopen { get; init; } = [];

    /// <summary>Learners for whom this person stands in today and of whom they have not said yet that they read first how they are taught.</summary>
    public IReadOnlySet<int> ReadFirst { get; init; } = new HashSet<int>();

    /// <summary>What assistants logged under this person's supervision, and for a case manager where the supervisor has left.</summary>
    public IReadOnlyList<EntryToSign> ToCountersign { get; init; } = [];

    /// <summary>What this person logged as an assistant and the supervisor sent back.</summary>
    public IReadOnlyList<EntryToSign> SentBack { get; init; } = [];

    /// <summary>Supervision visits that this person owes in the window that runs.</summary>
    public IReadOnlyList<SupervisionWaits> Supervision { get; init; } = [];

    /// <summary>Plans in force that this person has not read as they stand.</summary>
    public IReadOnlyList<PlanToRead> PlansToRead { get; init; } = [];

    /// <summary>For a case manager: who stands in for somebody with their learners, today and later.</summary>
    public IReadOnlyList<StandsIn> StandIns { get; init; } = [];

    /// <summary>Whether any of what this person's part in a team asks waits: to sign, to correct, to watch or to read.</summary>
    public bool PeopleWait => ToCountersign.Count + SentBack.Count + Supervision.Count + PlansToRead.Count > 0;

    /// <summary>Last days that are near or past, of oneself or of somebody who leaves something with one's learners; for an administrator all.</summary>
    public IReadOnlyList<LastDayWaits> LastDays { get; init; } = [];

    /// <summary>What stops something at today's visits that are still to be, by visit.</summary>
    public required ILookup<Guid, HoldShown> Holds { get; init; }
}

/// <param name="Outcome">What became of it, once logged.</param>
/// <param name="Reason">Why it was called off or not given; null where nothing was said.</param>
/// <param name="Expected">When somebody who runs late expects to begin.</param>
public sealed record OwnVisit(
    Guid Id, LocalDate On, LocalTime Start, int Minutes, int LearnerId, string Learner, VisitKind Kind, Discipline? Discipline, Place Place,
    bool IsMakeUp, VisitState State, VisitOutcome? Outcome, Reason? Reason, string? Partner, int Version, LocalTime? Expected)
{
    public LocalTime End => Start.PlusMinutes(Minutes);
}

/// <param name="To">The last day; the same as the first for a single day.</param>
public sealed record StandsIn(int LearnerId, string Learner, string Person, LocalDate From, LocalDate To);

public sealed record DeclinedShown(Guid VisitId, int LearnerId, string Learner, string Colleague, LocalDate On, string Why);

public sealed record TogetherShown(Guid SessionId, int LearnerId, string Learner, string Colleague, LocalDate On, LocalTime Start, LocalTime End);

/// <summary>Reads a person's own day.</summary>
public sealed class ReadMyDay(Portal portal)
{
    public const int MostListed = 20;

    /// <summary>Visits that nobody logged are listed from this many days back.</summary>
    private const int DaysBack = 400;

    /// <summary>Logged visits between which there was no time to travel are listed from this many days back: then somebody still knows.</summary>
    private const int DaysToCorrect = 14;

    public async Task<MyDay> RunAsync(Caller caller, Scope scope, CancellationToken stop = default)
    {
        var day = await portal.ReadAsync(scope, db => ReadAsync(db, caller, stop), stop);
        return !caller.Is(Role.Director) ? day : day with
        {
            // A director answers for learners to whom no relation leads.
            ToReopen = await portal.ReadAsync(Scope.WholeAgency(caller, "requests to open a closed count again"), db => ReadOpenCounts.ToAnswerAsync(db, caller, stop), stop),
        };
    }

    private static async Task<MyDay> ReadAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var own = db.Visits.Where(v => v.AgencyId == caller.AgencyId && v.ProviderId == caller.PersonId && v.Live);
        var today = await Shown(db, own.Where(v => v.OnDay == caller.Today)).ToListAsync(stop);
        var back = caller.Today.PlusDays(-DaysBack);
        var open = own.Where(v => v.Kind == VisitKind.Service && v.State == VisitState.Planned && v.OnDay < caller.Today && v.OnDay >= back);
        var notLogged = await Shown(db, open).Take(MostListed).ToListAsync(stop);
        var count = notLogged.Count < MostListed ? notLogged.Count : await open.CountAsync(stop);
        var (toSign, sentBack) = await ReadCountersign.OfAsync(db, caller, stop);
        var away = caller.Learners.Any(caller.Manages) ? await ReadAways.OpenAsync(db, caller.AgencyId, caller.Today, stop) : [];
        var waits = await WaitAsync(db, caller, stop);
        return waits with
        {
            Visits = today,
            NotLogged = notLogged,
            NotLoggedCount = count,
            ReadFirst = await People.ReadFirst.UnreadAsync(db, caller, stop),
            ToCountersign = toSign,
            SentBack = sentBack,
            PlansToRead = await PlanStates.ToReadAsync(db, caller, stop),
            ToMeet = [.. away.Where(a => caller.Manages(a.LearnerId))],
            ToCheck = await ReadVisitChecks.RunAsync(db, Checks(caller), stop),
            Things = await ReadThings.WaitingAsync(db, caller, stop),
            Holds = await HoldFacts.AtVisitsAsync(db, caller.AgencyId, [.. today.Where(v => v.State == VisitState.Planned).Select(v => (v.Id, v.LearnerId))], stop),
        };
    }

    /// <summary>What waits in all those places of which none needs another's answer: by one statement, and a second where something asks on.</summary>
    private static async Task<MyDay> WaitAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var all = new Together(db);
        var (together, declined, standIns) = (TogetherAsync(db, all, caller), DeclinedAsync(db, all, caller), StandInsAsync(db, all, caller));
        var supervision = ReadSupervision.WaitingAsync(db, all, caller);
        var setAside = ReadSetAside.CountAsync(db, all, caller);
        var (reports, remarks, requests) = (ReadReports.WaitingAsync(db, all, caller), ReadRemarks.WaitingAsync(db, all, caller), ReadRequests.WaitingAsync(db, all, caller));
        var (near, ofAge) = (ReadDates.NearAsync(db, all, caller), ReadComingOfAge.WaitingAsync(db, all, caller));
        var (toClose, lastDays) = (ReadOpenCounts.ToCloseAsync(db, all, caller), ReadLastDay.WaitingAsync(db, all, caller));
        await all.RunAsync(stop, together, declined, standIns, supervision, setAside, reports, remarks, requests, near, ofAge, toClose, lastDays);
        return new MyDay([], [], 0, await together, await declined)
        {
            StandIns = await standIns,
            Supervision = await supervision,
            SetAside = await setAside,
            Reports = await reports,
            Remarks = await remarks,
            Requests = await requests,
            DatesNear = await near,
            OfAge = await ofAge,
            ToClose = await toClose,
            LastDays = await lastDays,
            Holds = Array.Empty<HoldShown>().ToLookup(_ => Guid.Empty),
        };
    }

    private static ReadVisitChecks.Asked Checks(Caller caller) => new(
        caller.AgencyId, caller.Today.PlusDays(-DaysToCorrect), caller.Today.PlusDays(CalendarRules.MostDaysAhead), caller.Today, caller.PersonId);

    private static IQueryable<OwnVisit> Shown(PortalDb db, IQueryable<VisitRow> visits) =>
        from v in visits
        join l in db.Learners on new { v.AgencyId, Id = v.LearnerId } equals new { l.AgencyId, l.Id }
        from s in db.Services.Where(s => s.AgencyId == v.AgencyId && s.LearnerId == v.LearnerId && s.Id == v.ServiceId).DefaultIfEmpty()
        orderby v.OnDay, v.StartTime
        let logged = db.Sessions.Where(d => d.AgencyId == v.AgencyId && d.VisitId == v.Id && d.Live)
            .Select(d => new { Outcome = (VisitOutcome?)d.Outcome, d.Reason }).FirstOrDefault()
        select new OwnVisit(
            v.Id, v.OnDay, v.StartTime, v.Minutes, v.LearnerId, l.Name, v.Kind, s == null ? null : s.Discipline, v.Place, v.PaysOn != null, v.State,
            logged.Outcome, v.CalledOff ?? logged.Reason,
            db.People.Where(p => p.AgencyId == v.AgencyId && p.Id == v.PartnerId).Select(p => p.Name).FirstOrDefault(), v.Version, v.ExpectedStart);

    private static async Task<IReadOnlyList<StandsIn>> StandInsAsync(PortalDb db, Together all, Caller caller)
    {
        int[] managed = [.. caller.Learners.Where(caller.Manages)];
        return managed.Length == 0 ? [] : await all.ListAsync((
            from r in NewPeople.Of(db, caller.AgencyId)
            join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where managed.Contains(r.LearnerId) && r.ToDay >= caller.Today
            orderby r.FromDay, l.Name
            select new StandsIn(r.LearnerId, l.Name, p.Name, r.FromDay, r.ToDay!.Value)).Take(MostListed));
    }

    private static async Task<IReadOnlyList<DeclinedShown>> DeclinedAsync(PortalDb db, Together all, Caller caller) =>
        await all.ListAsync((
            from s in db.Sessions
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { s.AgencyId, Id = s.PartnerId } equals new { p.AgencyId, Id = (int?)p.Id }
            where s.AgencyId == caller.AgencyId && s.ProviderId == caller.PersonId && s.Live && s.DeclinedReason != null
            orderby s.OnDay, s.StartTime
            select new DeclinedShown(s.VisitId, s.LearnerId, l.Name, p.Name, s.OnDay, s.DeclinedReason!))
            .Take(MostListed));

    private static async Task<IReadOnlyList<TogetherShown>> TogetherAsync(PortalDb db, Together all, Caller caller) =>
        await all.ListAsync((
            from s in db.Sessions
            join v in db.Visits on new { s.AgencyId, s.LearnerId, Id = s.VisitId } equals new { v.AgencyId, v.LearnerId, v.Id }
            join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { s.AgencyId, Id = s.ProviderId } equals new { p.AgencyId, p.Id }
            where s.AgencyId == caller.AgencyId && s.PartnerId == caller.PersonId && s.Live && s.Outcome == VisitOutcome.Given && s.DeclinedReason == null
                && !db.Visits.Any(own => own.AgencyId == s.AgencyId && own.LearnerId == s.LearnerId && own.ProviderId == caller.PersonId
                    && own.OnDay == s.OnDay && own.TogetherNo == v.TogetherNo && own.Live && own.State == VisitState.Logged)
            orderby s.OnDay, s.StartTime
            select new TogetherShown(s.Id, s.LearnerId, l.Name, p.Name, s.OnDay, s.StartTime, s.EndTime))
            .Take(MostListed));
}
