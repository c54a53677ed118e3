using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Routines;
using static NodaTime.IsoDayOfWeek;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>
/// What the demonstration's team has put into its calendar: places and ways, hours, series from where the files' visits end, a
/// meeting, a stay in hospital. Through the operations that the pages use, as the people who would do so.
/// </summary>
internal sealed class DemonstrationCalendar(Portal portal, TimeProvider clock, Scope scope, SchoolYear year)
{
    /// <summary>The week from which the series go on; the files' visits are planned up to here.</summary>
    private const int SeriesFrom = 2 * SchoolYear.PeriodWeeks + 2;

    private static readonly (string Name, string Cue, string Day)[] Routines =
    [
        ("Watering the herbs", "the small can, filled", nameof(Monday)), ("Warm towel hello", "the towel from the heater", nameof(Tuesday)),
        ("Fan and ribbons", "a strip of ribbon", nameof(Wednesday)), ("Banana shake", "the cup with two handles", nameof(Friday)),
    ];

    /// <summary>What is practised at the visits of a service.</summary>
    private static readonly (string Service, string Routine)[] AtVisits =
    [
        ("TF07-V", "Fan and ribbons"), ("TF07-OT", "Watering the herbs"), ("TF07-AT", "Banana shake"), ("TF07-PT", "Warm towel hello"),
    ];

    private readonly ReadCaller _callers = new(portal, clock);
    private Dictionary<string, int> _people = [];
    private Dictionary<string, int> _learners = [];
    private Dictionary<string, ServiceRow> _services = [];

    public async Task AddAsync(CancellationToken stop)
    {
        await portal.ReadAsync(scope, async db =>
        {
            _people = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
            _learners = await db.Learners.Where(l => l.AgencyId == scope.AgencyId).ToDictionaryAsync(l => l.Code, l => l.Id, stop);
            _services = await db.Services.Where(s => s.AgencyId == scope.AgencyId).ToDictionaryAsync(s => s.Code, stop);
            return true;
        }, stop);
        var (dele, marisol) = (await CallerAsync(Dele, stop), await CallerAsync(Marisol, stop));
        await AddPlacesAsync(dele, marisol, stop);
        foreach (var person in new[] { Odalys, Bram, Priya, Tomasz, Marisol })
            Must(await new SetWorkingHours(portal).RunAsync(dele, Guid.CreateVersion7(), new() { Person = _people[person], Week = Week("8:00 to 12:00, 12:45 to 16:00") }, stop));
        await AddRoutinesAsync(stop);
        await AddSeriesAsync(marisol, stop);
        Must(await new AddAway(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _learners["TF19"],
            Reason = AwayReason.Hospital,
            FromDay = year.On(SchoolYear.PeriodWeeks, Monday),
            UntilDay = year.On(SchoolYear.PeriodWeeks + 3, Friday),
            Note = "Hip surgery, then the rehabilitation ward.",
        }, stop));
    }

    private async Task AddPlacesAsync(Caller dele, Caller marisol, CancellationToken stop)
    {
        var places = new Dictionary<string, int>();
        foreach (var (code, name, address, kind) in new[]
        {
            ("B0", "The cooperative's office", "Behind the old mill, second door", Place.School), ("N1", "North hill", "The last house on the hill, green gate; ring twice", Place.Home),
            ("R4", "River bend", "The yellow house at the bridge; park by the boats", Place.Home), ("H2", "Harbor end", "Above the bakery, stairs at the back", Place.Home),
        })
            places[code] = Must(await new SavePlace(portal).RunAsync(dele, Guid.CreateVersion7(), new() { Code = code, Name = name, Address = address, Kind = kind }, stop)).Place;
        Must(await new SetTravelTimes(portal).RunAsync(dele, Guid.CreateVersion7(), new()
        {
            Ways =
            [
                new() { From = places["N1"], To = places["R4"], Minutes = 20, Distance = 7.2m }, new() { From = places["N1"], To = places["H2"], Minutes = 25, Back = 20, Distance = 9.8m },
                new() { From = places["R4"], To = places["H2"], Minutes = 15, Distance = 5.4m }, new() { From = places["B0"], To = places["N1"], Minutes = 10, Distance = 3.1m },
                new() { From = places["B0"], To = places["R4"], Minutes = 15, Distance = 4.6m }, new() { From = places["B0"], To = places["H2"], Minutes = 20 }, // nobody has measured it yet
            ],
        }, stop));
        foreach (var (learner, home, hours) in new[] { ("TF07", "N1", "8:15 to 11:00, 12:45 to 15:00"), ("TF12", "R4", "9:00 to 12:00"), ("TF19", "H2", "9:30 to 12:00, 13:30 to 15:00") })
            Must(await new SetOpenHours(portal).RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = _learners[learner], Week = Week(hours), Places = [places[home], null, null, null] }, stop));
    }

    /// <summary>Routines with their object cues, and what is practised at visits and at home.</summary>
    private async Task AddRoutinesAsync(CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, System.Data.IsolationLevel.ReadCommitted, stop: stop);
        RoutineRow[] rows = [.. Routines.Select(r => new RoutineRow { AgencyId = scope.AgencyId, LearnerId = _learners["TF07"], Name = r.Name, ObjectCue = r.Cue, Place = Place.Home })];
        work.Db.AddRange(rows);
        await work.Db.SaveChangesAsync(stop);
        work.Db.AddRange(rows.Zip(Routines, (row, r) => new HomePracticeRow
        {
            AgencyId = scope.AgencyId,
            LearnerId = row.LearnerId,
            RoutineId = row.Id,
            Weekday = Enum.Parse<IsoDayOfWeek>(r.Day),
            Who = "Ines",
        }));
        await PlanAtVisitsAsync(work.Db, rows, stop);
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        await WriteCardsAsync(rows, stop);
        await AddHoldAsync(rows[2], stop);
    }

    /// <summary>A hold that stood for nine days, on the mother's word.</summary>
    private async Task AddHoldAsync(RoutineRow fan, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, System.Data.IsolationLevel.ReadCommitted, stop: stop);
        var zone = await ZoneAsync(stop);
        var monday = year.On(SchoolYear.ThisWeek - 3, Monday);
        work.Db.Add(new HoldRow
        {
            AgencyId = scope.AgencyId,
            LearnerId = fan.LearnerId,
            RoutineId = fan.Id,
            Reason = "Her eyes flickered for longer than usual after the fan on Sunday. Not before her physician has seen her.",
            ToldAs = HoldWord.Parent,
            ToldBy = "Ines Belmares",
            ToldOn = monday.PlusDays(-1),
            SetBy = _people[Odalys],
            SetAt = WallTime.Resolve(monday + new LocalTime(8, 5), zone).ToInstant(),
            EndedBy = _people[Priya],
            EndedAt = WallTime.Resolve(monday.PlusDays(9) + new LocalTime(15, 20), zone).ToInstant(),
            EndedWord = "No seizure, her physician says. The fan runs again beside the lamp; stop and write it down if it comes back.",
        });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }

    /// <summary>The cards, each written by who gives the service it is practised in, and reviewed.</summary>
    private async Task WriteCardsAsync(RoutineRow[] routines, CancellationToken stop)
    {
        var goals = await portal.ReadAsync(scope, db => db.Goals.Where(g => g.AgencyId == scope.AgencyId).ToDictionaryAsync(g => g.Code, g => g.Id, stop), stop);
        var cards = new DemonstrationCards(goals["TF07-LOOKS"], goals["TF07-PRESSES"], goals["TF07-HEAD"], goals["TF07-MORE"]);
        var (odalys, bram, priya) = (await CallerAsync(Odalys, stop), await CallerAsync(Bram, stop), await CallerAsync(Priya, stop));
        var herbs = await WriteAsync(routines[0], bram, bram, Discipline.OccupationalTherapy, stop, cards.Herbs, cards.HerbsAfterTheFirstWeeks);
        await WriteAsync(routines[1], priya, priya, Discipline.PhysicalTherapy, stop, cards.Towel);
        await WriteAsync(routines[2], odalys, priya, Discipline.PhysicalTherapy, stop, cards.Fan);
        await WriteAsync(routines[3], await CallerAsync(Tomasz, stop), bram, Discipline.OccupationalTherapy, stop, cards.Shake);
        await new DemonstrationPractices(new RecordPractice(portal, clock), year, await ZoneAsync(stop), herbs).AddAsync(who => CallerAsync(who, stop), stop);
    }

    /// <summary>The versions as they were written in the first week and when the wait was lengthened, and the review of the first.</summary>
    private async Task<IReadOnlyList<RoutineVersionRow>> WriteAsync(
        RoutineRow routine, Caller writer, Caller reviewer, Discipline discipline, CancellationToken stop, params RoutineContent[] versions)
    {
        var zone = await ZoneAsync(stop);
        LocalDate[] days = [year.On(0, Thursday), year.On(DemonstrationPractices.LongerFrom, Monday)];
        await using var work = await portal.OpenAsync(scope, System.Data.IsolationLevel.ReadCommitted, stop: stop);
        RoutineVersionRow[] rows = [.. versions.Select((content, i) => new RoutineVersionRow
        {
            AgencyId = scope.AgencyId,
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            Number = i + 1,
            Content = CardKeys.Give(content, []).Write(), // the same keys in each version: they have the same steps in the same order
            WrittenBy = writer.PersonId,
            WrittenAt = WallTime.Resolve(days[i] + new LocalTime(15, 40), zone).ToInstant(),
        })];
        work.Db.AddRange(rows);
        await work.Db.SaveChangesAsync(stop);
        work.Db.Add(new RoutineReviewRow { AgencyId = scope.AgencyId, LearnerId = routine.LearnerId, VersionId = rows[0].Id, PersonId = reviewer.PersonId, Discipline = discipline, ReviewedOn = days[0].PlusDays(1) });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return rows;
    }

    private Task<DateTimeZone> ZoneAsync(CancellationToken stop) => portal.ReadAsync(scope, async db =>
        DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop)], stop);

    private async Task PlanAtVisitsAsync(PortalDb db, RoutineRow[] routines, CancellationToken stop)
    {
        var monday = year.On(SchoolYear.ThisWeek, Monday);
        foreach (var (service, name) in AtVisits)
        {
            var (id, learner, routine) = (_services[service].Id, _services[service].LearnerId, routines.Single(r => r.Name == name).Id);
            var visits = await db.Visits.Where(v => v.AgencyId == scope.AgencyId && v.ServiceId == id && v.Live && v.OnDay >= monday).Select(v => v.Id).ToListAsync(stop);
            db.AddRange(visits.Select(v => new VisitRoutineRow { AgencyId = scope.AgencyId, LearnerId = learner, VisitId = v, RoutineId = routine }));
        }
    }

    private async Task AddSeriesAsync(Caller marisol, CancellationToken stop)
    {
        await SeriesAsync(marisol, "TF07-V", Odalys, new(8, 30), stop, Monday, Wednesday);
        await SeriesAsync(marisol, "TF07-OT", Bram, new(8, 30), stop, Tuesday, Thursday);
        await SeriesAsync(marisol, "TF12-V", Odalys, new(9, 30), stop, Monday);
        Must(await new ScheduleSeries(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _learners["TF07"],
            Kind = VisitKind.EquipmentAndFitting,
            ProviderId = _people[Tomasz],
            Start = new(13, 30),
            Minutes = 45,
            FirstDay = year.Today.PlusDays(7),
            Cadence = new() { Unit = CadenceUnit.Month, Days = [Friday], Which = 3 },
            Confirmed = true,
            LeaveOut = true,
        }, stop));
        Must(await new ScheduleVisit(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _learners["TF07"],
            Kind = VisitKind.PlanMeeting,
            OnDay = year.On(SchoolYear.ThisWeek + 3, Thursday),
            Start = new(15, 30),
            Minutes = 60,
            Place = Place.School,
            Confirmed = true,
        }, stop));
    }

    private async Task SeriesAsync(Caller marisol, string service, string provider, LocalTime start, CancellationToken stop, params IsoDayOfWeek[] days) =>
        Must(await new ScheduleSeries(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _services[service].LearnerId,
            ServiceId = _services[service].Id,
            ProviderId = _people[provider],
            Start = start,
            Minutes = 30,
            FirstDay = year.On(SeriesFrom, Monday),
            Cadence = new() { Days = days },
            Confirmed = true,
            LeaveOut = true,
        }, stop));

    private WeekInput Week(string hours) => new() { FromDay = year.FirstDay, Days = [hours, hours, hours, hours, hours, "", ""] };

    private async Task<Caller> CallerAsync(string email, CancellationToken stop) => (await _callers.RunAsync(scope.AgencyId, _people[email], stop))!;
}
