using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.MakeUps;
using TeamCircle.Data.Moves;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;
using TeamCircle.Data.Tests.Calendar;
using TeamCircle.Data.Things;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Moves;

/// <summary>People and learners who come and go. Today is Friday 2 October 2026; Bram gives Wren occupational therapy, 60 minutes a week, on Tuesdays.</summary>
public sealed class MovesTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate LastDay = new(2026, 10, 7), Next = new(2026, 10, 8);
    private CalendarAgency _made = null!;
    private ServiceRow _therapy = null!;
    private int _dele, _series;

    public async ValueTask InitializeAsync()
    {
        _made = await CalendarAgency.CreateAsync(database);
        _therapy = await _made.Team.ServiceAsync(_made.Team.Wren, Discipline.OccupationalTherapy, _made.Team.Bram);
        _dele = await _made.Team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);
        _series = (await _made.ScheduleAsync(_made.Tuesdays with { ServiceId = _therapy.Id, ProviderId = _made.Team.Bram, Start = new(13, 0) }, by: _made.Team.Marisol)).Series;
    }

    public ValueTask DisposeAsync() => _made.DisposeAsync();

    // Windows are weeks from Monday; each closes on its Friday. Seven closed up to Friday 2 October while Bram was named: 7 × 60 = 420. The week of 5 October closes on the
    // 9th, when Priya is named, although Bram gave in it: it is hers, with the 45 minutes that count for the service whoever gave them. With the week of 12 October she answers for 120.
    [Fact]
    public async Task Last_day_in_the_middle_of_a_week_is_right_on_both_sides_of_the_date_and_the_successor_starts_at_zero()
    {
        await LogAsync(new(2026, 9, 29), 60);
        await SetAsync();
        var saved = CalendarAgency.Value(await HandOverAsync(_made.Team.Priya));
        await GoToAsync(6);
        await LogAsync(new(2026, 10, 6), 45);
        await GoToAsync(17);

        var audit = await AuditAsync();
        var line = audit.Lines.Single(l => l.Line.Id == _therapy.Id && !l.Line.IsProbes);
        var shares = audit.Providers.ToDictionary(p => p.PersonId, p => p.Lines.Where(l => audit.Lines[l.Line] == line).Select(l => (l.Balance.Minutes.Due, l.Balance.Minutes.Given, l.IsShared)).SingleOrDefault());
        Assert.Equal((10, 0), (saved.Visits, saved.Left));
        Assert.Equal((420, 60, true), shares[_made.Team.Bram]);
        Assert.Equal((120, 45, true), shares[_made.Team.Priya]);
        Assert.Equal((540, 105, false), (line.Balance.Minutes.Due, line.Balance.Minutes.Given, line.IsUnassigned));
        Assert.Equal(105, audit.Providers.Single(p => p.PersonId == _made.Team.Bram).GaveMinutes);
    }

    [Fact]
    public async Task After_the_last_day_they_can_do_nothing_here_and_what_they_recorded_stays_with_their_name()
    {
        await LogAsync(new(2026, 9, 29), 60);
        await SetAsync();

        await GoToAsync(7);
        Assert.True((await _made.Team.CallerAsync(_made.Team.Bram)).OnTeam(_made.Team.Wren));
        await GoToAsync(8);
        Assert.Null(await _made.Agency.CallerAsync(_made.Team.Bram));
        Assert.Equal(_made.Team.Bram, await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Sessions.Where(s => s.ServiceId == _therapy.Id).Select(s => s.ProviderId).SingleAsync()));
    }

    [Fact]
    public async Task List_must_be_empty_or_decided_before_the_hand_over_is_finished()
    {
        var missed = (await _made.Team.VisitAsync(_therapy, _made.Team.Bram, new(2026, 9, 22), new(13, 0))).Id;
        var thing = await _made.Agency.AddAsync(new ThingRow { LearnerId = _made.Team.Wren, Name = "Elbow switch", OwnerId = _made.Team.Bram, PromisedOn = new(2026, 8, 17), EnteredBy = _made.Team.Bram });
        var (joss, entry) = await AssistantAsync();
        await SetAsync();
        var finish = () => _made.RunAsync<FinishHandOver, FinishHandOver.Saved>(_dele, async (o, c, id) => await o.RunAsync(c, id, new(_made.Team.Bram, (await PageAsync(_dele)).Last!.Version)));

        var before = await PageAsync(_made.Team.Marisol);
        Assert.Equal(
            [(HandOverKind.VisitNotLogged, 1), (HandOverKind.Countersign, 1), (HandOverKind.Service, 1), (HandOverKind.Thing, 1), (HandOverKind.VisitToCome, 10), (HandOverKind.Series, 1), (HandOverKind.Supervision, 1)],
            before.Items.GroupBy(i => i.Kind).Select(g => (g.Key, g.Count())).OrderBy(k => k.Key));
        Assert.Equal("16 things are not decided yet. The list says which.", Assert.Single((await finish()).Problems).Message);

        CalendarAgency.Value(await HandOverAsync(_made.Team.Priya));
        Assert.Equal(["To"], (await HandOverAsync(_made.Team.Priya)).Problems.Select(p => p.Field)); // nothing would change
        CalendarAgency.Value(await _made.RunAsync<FileItem, FileItem.Saved>(_made.Team.Marisol, (o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, Person = _made.Team.Bram, Visit = missed, Reason = "He left before he wrote it, and the family does not remember." })));

        Assert.Equal((HandOverKind.Countersign, entry), Assert.Single((await PageAsync(_dele)).Items) is var left ? (left.Kind, left.Session) : default);
        CalendarAgency.Value(await _made.RunAsync<Countersign, Countersign.Saved>(_made.Team.Bram, (o, c, id) => o.RunAsync(c, id, new(entry))));
        Assert.Empty((await PageAsync(_dele)).Items);
        Assert.Equal([(_made.Team.Bram, LastDay), (_made.Team.Priya, null)], await SupervisorsAsync(joss));
        Assert.Equal(_made.Team.Priya, await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Things.Where(t => t.Id == thing.Id).Select(t => t.OwnerId).SingleAsync()));
        CalendarAgency.Value(await finish());
        Assert.Equal((VisitState.CalledOff, Reason.NotRecorded), await _made.VisitAsync(missed) is var visit ? (visit.State, visit.CalledOff) : default);
        var filed = Assert.Single(await _made.Agency.Get<ReadLastDay>().FiledAsync(_made.Agency.Person(_made.Team.Odalys, _made.Team.Wren), missed, null));
        Assert.Equal(("Bram Nakamura", "Marisol Quenby", new LocalDate(2026, 10, 2)), (filed.Person, filed.By, filed.On));
    }

    // Priya has Jonah at 13:15 on two of the Tuesdays after the last day, so that Wren's visits of 13 and 20 October stay on the list.
    [Fact]
    public async Task Visit_that_something_stands_against_is_decided_by_itself()
    {
        var others = await _made.Team.ServiceAsync(_made.Team.Jonah, Discipline.PhysicalTherapy, _made.Team.Priya);
        foreach (var day in new[] { 13, 20 })
            await _made.Team.VisitAsync(others, _made.Team.Priya, new(2026, 10, day), new(13, 15));
        await SetAsync();
        Assert.Equal((8, 2), CalendarAgency.Value(await HandOverAsync(_made.Team.Priya)) is var over ? (over.Visits, over.Left) : default);
        var left = (await PageAsync(_made.Team.Marisol)).Of(HandOverKind.VisitToCome).Select(i => i.Visit!.Value).ToList();
        async Task<Outcome<DecideLeftVisit.Saved>> DecideAsync(Guid visit, int? to, LocalTime start, int by) => await _made.RunAsync<DecideLeftVisit, DecideLeftVisit.Saved>(
            by, async (o, c, id) => await o.RunAsync(c, id, new() { Visit = visit, Version = (await _made.VisitAsync(visit)).Version, To = to, OnDay = (await _made.VisitAsync(visit)).OnDay, Start = start }));

        var marisol = await _made.Team.CallerAsync(_made.Team.Marisol);
        var page = (await _made.Agency.Get<ReadLeftVisit>().RunAsync(marisol, Scope.Of(marisol), left[0]))!;
        Assert.Equal((_made.Team.Priya, "Priya Lindqvist is taken from 1:15 to 2:00 pm."), (page.Successor!.Id, Assert.Single(page.Against).Words));
        Assert.Equal(["Start"], (await DecideAsync(left[0], _made.Team.Priya, new(13, 0), _made.Team.Marisol)).Problems.Select(p => p.Field));
        Assert.Equal(["To"], (await DecideAsync(left[0], _made.Team.Bram, new(15, 0), _made.Team.Marisol)).Problems.Select(p => p.Field));
        Assert.Equal([Problem.NotFound], (await DecideAsync(left[0], _made.Team.Priya, new(15, 0), _made.Team.Odalys)).Problems);

        CalendarAgency.Value(await DecideAsync(left[0], _made.Team.Priya, new(15, 0), _made.Team.Marisol));
        CalendarAgency.Value(await DecideAsync(left[1], null, default, _made.Team.Marisol));
        Assert.Equal((_made.Team.Priya, new LocalTime(15, 0), VisitState.Planned), await _made.VisitAsync(left[0]) is var moved ? (moved.ProviderId, moved.StartTime, moved.State) : default);
        Assert.Equal((VisitState.CalledOff, Reason.NobodyAssigned), await _made.VisitAsync(left[1]) is var dropped ? (dropped.State, dropped.CalledOff) : default);
        Assert.Empty((await PageAsync(_dele)).Items);
        Assert.Equal([Problem.NotFound], (await DecideAsync(left[0], _made.Team.Odalys, new(16, 0), _made.Team.Marisol)).Problems); // it is Priya's now, who stays
    }

    [Fact]
    public async Task Entry_that_nobody_can_stand_for_is_filed_once_they_are_gone_and_asks_nobody_any_more()
    {
        var (_, entry) = await AssistantAsync();
        var visit = await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Sessions.Where(s => s.Id == entry).Select(s => s.VisitId).SingleAsync());
        await SetAsync();
        CalendarAgency.Value(await HandOverAsync(_made.Team.Priya));
        var file = () => _made.RunAsync<FileItem, FileItem.Saved>(_made.Team.Marisol, (o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, Person = _made.Team.Bram, Visit = visit, Reason = "The assistant does not remember either." }));
        Assert.Contains("on the list no longer", Assert.Single((await file()).Problems).Message, StringComparison.Ordinal); // Bram can still sign it himself

        await GoToAsync(8);
        var waiting = async () => await _made.Team.CallerAsync(_made.Team.Marisol) is var c ? await _made.Agency.Get<ReadCountersign>().RunAsync(c, Scope.Of(c)) : [];
        Assert.Single(await waiting());
        CalendarAgency.Value(await file());

        Assert.Empty(await waiting());
        Assert.DoesNotContain((await PageAsync(_dele)).Items, i => i.Kind == HandOverKind.Countersign);
        Assert.Equal((0, null), await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Sessions.Where(s => s.Id == entry).Select(s => new { s.Credited, s.CountersignedBy }).SingleAsync())
            is var after ? (after.Credited, after.CountersignedBy) : default);
        var filed = Assert.Single(await _made.Agency.Get<ReadLastDay>().FiledAsync(_made.Agency.Person(_made.Team.Odalys, _made.Team.Wren), visit, null));
        Assert.Equal((HandOverKind.Countersign, "Bram Nakamura"), (filed.What, filed.Person));
    }

    [Fact]
    public async Task Handing_over_can_be_undone_with_all_that_it_changed_and_so_can_the_last_day()
    {
        var rows = async () => (
            string.Join(' ', (await _made.RowsAsync(_series)).Where(v => v.Live).Select(v => $"{v.OnDay.Day}:{v.ProviderId}")),
            string.Join(' ', await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Assignments.Where(a => a.ServiceId == _therapy.Id).OrderBy(a => a.FromDay)
                .Select(a => a.PersonId + ":" + a.FromDay + "-" + a.ToDay).ToListAsync())),
            string.Join(' ', await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Relations.Where(r => r.AgencyId == _made.Agency.Id).OrderBy(r => r.PersonId).ThenBy(r => r.LearnerId)
                .Select(r => r.PersonId + ":" + r.LearnerId + ":" + r.ToDay).ToListAsync())));
        var before = await rows();
        await SetAsync();
        CalendarAgency.Value(await HandOverAsync(_made.Team.Priya));
        Assert.NotEqual(before, await rows());
        var back = async () => await _made.RunAsync<TakeBackLastDay, TakeBackLastDay.Saved>(_dele, async (o, c, id) => await o.RunAsync(
            c, id, new() { Person = _made.Team.Bram, Version = (await PageAsync(_dele)).Last!.Version, Reason = "He stays." }));
        Assert.Contains("undo that first", Assert.Single((await back()).Problems).Message, StringComparison.Ordinal);

        var done = Assert.Single((await PageAsync(_made.Team.Marisol)).HandedOver);
        CalendarAgency.Value(await _made.RunAsync<UndoHandOver, UndoHandOver.Saved>(_made.Team.Marisol, (o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, HandOver = done.Id, Version = done.Version, Reason = "He stays." })));
        CalendarAgency.Value(await back());

        Assert.Equal(before, await rows());
        Assert.Null((await PageAsync(_dele)).Last);
        await GoToAsync(20);
        Assert.NotNull(await _made.Agency.CallerAsync(_made.Team.Bram));
    }

    // From Thursday 8 to Friday 16 October: 9 days of the calendar, 7 of them weekdays. Owed minutes run on: nine weeks since 17 August, 9 × 60 = 540.
    [Fact]
    public async Task Nobody_assigned_owes_on_counts_its_days_and_can_be_made_up_later()
    {
        await SetAsync();
        CalendarAgency.Value(await HandOverAsync(null));
        await GoToAsync(16);
        var now = (await StandingsAsync(new(2026, 10, 16))).OfService(_therapy.Id)!;
        Assert.True(now.IsUnassigned);
        Assert.Equal((540, 9, 7), (now.Balance.Minutes.Owed, now.Without!.CalendarDays, now.Without.SchoolDays));
        Assert.All((await _made.RowsAsync(_series)).Where(v => v.OnDay > LastDay), v => Assert.False(v.Live));

        // Priya comes on 19 October; the week of 12 October, in which no visit was missed because nobody had one planned, is made up by her.
        CalendarAgency.Value(await _made.RunAsync<AssignProvider, AssignProvider.Saved>(_made.Team.Marisol, (o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, Service = _therapy.Id, Person = _made.Team.Priya, FromDay = new(2026, 10, 19), ToDay = _therapy.ToDay })));
        await GoToAsync(20);
        CalendarAgency.Value(await _made.RunAsync<LogSession, Saved>(_made.Team.Priya, (o, c, id) => o.RunAsync(
            c, id, new() { Services = [_therapy.Id], OnDay = new(2026, 10, 20), Start = "9:00", End = "10:00", PaysOn = new(2026, 10, 13) })));

        var audit = await AuditAsync();
        var line = audit.Lines.Single(l => l.Line.Id == _therapy.Id && !l.Line.IsProbes);
        Assert.Equal((60, 60), (line.Balance.MadeUpSince, audit.Explain(Array.IndexOf([.. audit.Lines], line)).Closing.Single(w => w.Window.Days.Start == new LocalDate(2026, 10, 12)).Minutes.Paid));
        var made = await PlannerAsync(new(Learner: _made.Team.Wren, Service: _therapy.Id, Period: _made.Team.Period.Id));
        Assert.DoesNotContain(made.Lacking, l => l.First == new LocalDate(2026, 10, 12));
        Assert.Contains(made.Lacking, l => l.First == new LocalDate(2026, 9, 14) && l.ProviderId == _made.Team.Priya);
    }

    // The plan from elsewhere says 60 minutes a week; Wren comes on Wednesday 14 October. Of that week's five school days three are left: R(60 × 3 / 5) = 36.
    [Fact]
    public async Task Comparable_service_from_a_Wednesday_owes_by_its_days_and_ends_with_a_plan_of_our_own()
    {
        var wednesday = new LocalDate(2026, 10, 14);
        await _made.Agency.ChangeAsync<ServiceRow>(s => s.Id == _made.Team.Vision.Id, s => s.FromDay = wednesday);
        await _made.Agency.ChangeAsync<ServiceVersionRow>(v => v.ServiceId == _made.Team.Vision.Id, v => v.FromDay = wednesday);
        await InAsync<BeginMoveIn, BeginMoveIn.Saved>((o, c, id) => o.RunAsync(c, id, new() { Learner = _made.Team.Wren, FromWhere = "Marshlow district", FirstDay = wednesday }));
        await InAsync<AddComparable, AddComparable.Saved>((o, c, id) => o.RunAsync(c, id, new() { Learner = _made.Team.Wren, Words = "Vision: 60 min/wk, home", Service = _made.Team.Vision.Id }));
        await InAsync<AskForRecords, AskForRecords.Saved>((o, c, id) => o.RunAsync(c, id, new() { Learner = _made.Team.Wren, What = "The whole file", OfWhom = "Marshlow district, by letter", AskedOn = new(2026, 10, 2) }));

        Assert.Equal(36, (await StandingsAsync(new(2026, 10, 19))).OfService(_made.Team.Vision.Id)!.Windows.Single(w => w.Window.Days.Holds(Core.Time.Day.Of(wednesday))).Minutes.Owed);
        var page = await MoveInAsync();
        Assert.Equal(("Vision: 60 min/wk, home", _made.Team.Vision.Id), page.Comparable.Select(c => (c.Words, c.Service!.Value)).Single());
        await InAsync<DecideMoveIn, DecideMoveIn.Saved>((o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, Status = MoveInStatus.Replaced, DecidedOn = new(2026, 11, 2), DecidedWords = "Meeting with both parents.", Version = page.In!.Version }));

        Assert.Equal((MoveInStatus.Replaced, new LocalDate(2026, 11, 1)), ((await MoveInAsync()).In!.Status, (await MoveInAsync()).Comparable.Single().To!.Value));
    }

    [Fact]
    public async Task Learner_who_goes_ends_what_runs_and_leaves_one_file_that_never_changes()
    {
        await LogAsync(new(2026, 9, 29), 60);
        await _made.Team.VisitAsync(_therapy, _made.Team.Bram, new(2026, 9, 22), new(13, 0)); // nobody logged it
        await _made.Agency.ChangeAsync<LearnerRow>(l => l.Id == _made.Team.Wren, l => l.LegalName = "Renata Belmares");
        var begun = await InAsync<BeginMoveOut, BeginMoveOut.Saved>((o, c, id) => o.RunAsync(
            c, id, new() { Learner = _made.Team.Wren, LastDay = LastDay, ToWhere = "Marshlow district", Ground = TransferGround.Enrolling, GroundWords = "Notice of enrollment of 1 October" }));
        var page = await MoveOutAsync();
        await InAsync<WriteTransfer, WriteTransfer.Saved>((o, c, id) => o.RunAsync(c, id, new() { Learner = _made.Team.Wren, Version = page.Out!.Version, Works = "One thing at a time, and a long wait." }));
        var made = await InAsync<MakeTransferFile, MakeTransferFile.Saved>(async (o, c, id) => await o.RunAsync(c, id, new(_made.Team.Wren, (await MoveOutAsync()).Out!.Version)));

        var file = (await _made.Agency.Get<ReadMoveOut>().FileAsync(Scope.Of(await _made.Team.CallerAsync(_made.Team.Marisol)), _made.Team.Wren, made.File))!.Content;
        Assert.Equal(("Renata Belmares", "Wren Belmares"), (file.Learner, file.Called));
        Assert.Equal(1, page.NotLogged);
        Assert.Equal((10, LastDay.PlusDays(MoveRules.UsualDaysToRead)), (begun.Visits, page.Out!.ReadUntil));
        Assert.All((await _made.RowsAsync(_series)).Where(v => v.OnDay > LastDay), v => Assert.False(v.Live));
        Assert.Equal([_made.Team.Vision.Code, _therapy.Code], file.Services.Select(s => s.Code).Order());
        // Six weeks had closed by the day before 2 October, 6 × 60; of them nothing lacks but what was given on 29 September in the week that is still open.
        Assert.Equal((360, 0, 360), file.Balances.Where(b => b.Code == _therapy.Code).Select(b => (b.Due, b.Given, b.Lacking)).Single());
        Assert.Equal("disclosure to Marshlow district: Notice of enrollment of 1 October", await _made.Agency.Portal.ReadAsync(
            _made.Agency.WholeAgency, db => db.Accesses.Where(a => a.AgencyId == _made.Agency.Id && a.Page == "GET /Moves/TransferFile").Select(a => a.Ground).SingleAsync()));
        await Assert.ThrowsAnyAsync<DbUpdateException>(() => _made.Agency.ChangeAsync<TransferFileRow>(f => f.Id == made.File, f => f.Content = "{}"));

        await GoToAsync(8);
        await InAsync<TakeBackMoveOut, TakeBackMoveOut.Saved>(async (o, c, id) => await o.RunAsync(c, id, new() { Learner = _made.Team.Wren, Version = (await MoveOutAsync()).Out!.Version, Reason = "They stay." }));
        Assert.Equal(10, (await _made.RowsAsync(_series)).Count(v => v.OnDay > LastDay && v.Live));
        Assert.Equal(_therapy.ToDay, await _made.Agency.Portal.ReadAsync(_made.Agency.WholeAgency, db => db.Services.Where(s => s.Id == _therapy.Id).Select(s => s.ToDay).SingleAsync()));
    }

    /// <summary>An assistant of Wren under Bram, and what they logged on 24 September, which waits for him.</summary>
    private async Task<(int Person, Guid Session)> AssistantAsync()
    {
        var joss = await _made.Team.PersonAsync("Joss Ahlgren", Role.Provider, Relation.Team);
        await _made.Agency.AddAsync(new RelationRow { LearnerId = _made.Team.Wren, PersonId = joss, Kind = Relation.Assistant, FromDay = new(2026, 8, 17), SupervisorId = _made.Team.Bram });
        var logged = CalendarAgency.Value(await _made.RunAsync<LogSession, Saved>(
            joss, (o, c, id) => o.RunAsync(c, id, new() { Services = [_therapy.Id], OnDay = new(2026, 9, 24), Start = "15:00", End = "15:20" })));
        return (joss, logged.Sessions[0]);
    }

    /// <summary>Who supervises an assistant, and until when.</summary>
    private async Task<IEnumerable<(int?, LocalDate?)>> SupervisorsAsync(int assistant) => (await _made.Agency.Portal.ReadAsync(
        _made.Agency.WholeAgency, db => db.Relations.Where(r => r.PersonId == assistant).OrderBy(r => r.FromDay).Select(r => new { r.SupervisorId, r.ToDay }).ToListAsync()))
        .Select(r => (r.SupervisorId, r.ToDay));

    private async Task<TSaved> InAsync<TOperation, TSaved>(Func<TOperation, Caller, Guid, Task<Outcome<TSaved>>> run) where TOperation : class where TSaved : class =>
        CalendarAgency.Value(await _made.RunAsync(_made.Team.Marisol, run));

    private async Task<MoveInPage> MoveInAsync() => (await _made.Agency.Get<ReadMoveIn>().RunAsync(_made.Agency.Person(_made.Team.Marisol, _made.Team.Wren), _made.Team.Wren))!;

    private async Task<MoveOutPage> MoveOutAsync() => (await _made.Agency.Get<ReadMoveOut>().RunAsync(_made.Agency.Person(_made.Team.Marisol, _made.Team.Wren), _made.Team.Wren, (await _made.Team.CallerAsync(_made.Team.Marisol)).Today))!;

    private async Task SetAsync() => CalendarAgency.Value(await _made.RunAsync<SetLastDay, SetLastDay.Saved>(_dele, (o, c, id) => o.RunAsync(c, id, new() { Person = _made.Team.Bram, Day = LastDay })));

    private Task<Outcome<HandOverLearner.Saved>> HandOverAsync(int? to) => _made.RunAsync<HandOverLearner, HandOverLearner.Saved>(
        _made.Team.Marisol, (o, c, id) => o.RunAsync(c, id, new() { Learner = _made.Team.Wren, Person = _made.Team.Bram, To = to }));

    private async Task<LastDayPage> PageAsync(int reader)
    {
        var caller = await _made.Team.CallerAsync(reader);
        var scope = caller.Is(Role.Administrator) ? Scope.WholeAgency(caller, "a last day") : Scope.Of(caller);
        return (await _made.Agency.Get<ReadLastDay>().RunAsync(caller, scope, _made.Team.Bram))!;
    }

    private async Task LogAsync(LocalDate day, int minutes) => CalendarAgency.Value(await _made.RunAsync<LogSession, Saved>(_made.Team.Bram, async (o, c, id) =>
    {
        var planned = (await _made.RowsAsync(_series)).SingleOrDefault(v => v.OnDay == day);
        var end = new LocalTime(13, 0).PlusMinutes(minutes).ToString("H:mm", null);
        return await o.RunAsync(c, id, planned is null
            ? new() { Services = [_therapy.Id], OnDay = day, Start = "13:00", End = end }
            : new() { Visits = [planned.Id], Start = "13:00", End = end });
    }));

    /// <summary>Eleven in the evening of a day of October, so that what was that day's can be logged.</summary>
    private Task GoToAsync(int day)
    {
        _made.Agency.Clock.SetUtcNow(new DateTimeOffset(2026, 10, day, 23, 0, 0, TimeSpan.FromHours(-7)));
        return Task.CompletedTask;
    }

    private async Task<Audit> AuditAsync() => (await _made.Agency.Get<ReadAudit>().RunAsync(_made.Agency.WholeAgency, _made.Team.Period.Id, (await _made.Team.CallerAsync(_made.Team.Marisol)).Today))!;

    private Task<Standings> StandingsAsync(LocalDate day) => _made.Agency.Get<ReadStandingLines>().RunAsync(_made.Agency.WholeAgency, day);

    private async Task<MakeUpFacts> PlannerAsync(MakeUpAsk ask)
    {
        var caller = await _made.Team.CallerAsync(_made.Team.Marisol);
        return (await _made.Agency.Get<ReadMakeUps>().RunAsync(caller, Scope.Of(caller), ask, []))!;
    }
}
