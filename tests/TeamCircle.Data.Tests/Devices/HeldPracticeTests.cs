using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Devices;

/// <summary>What a hold does to devices: what they hear, what of theirs is set aside, which have not heard. Now is Friday 2 October 2026, 16:00 UTC.</summary>
public sealed class HeldPracticeTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly Instant Now = Instant.FromUtc(2026, 10, 2, 16, 0);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private TestPractice _practice = null!;
    private Guid _device;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"HELD{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _practice = await TestPractice.CreateAsync(_agency, _team, card: TestPractice.Card(_team.Gaze.Id) with { Device = new("soft switch"), Cautions = [new("c1", CautionKind.Other, "Battery only.")] });
        _device = await _practice.DeviceAsync(_team, _team.Odalys);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private SetHold.Input OnIt => new() { Learner = _team.Wren, Routine = _practice.Version.RoutineId, Reason = "Wren has a new chair.", ToldAs = HoldWord.Parent, ToldBy = "Ines Belmares", ToldOn = new(2026, 10, 1) };

    private async Task<int> HoldAsync(SetHold.Input input) => (await _agency.Get<SetHold>().RunAsync(await _team.CallerAsync(_team.Bram), Guid.CreateVersion7(), input)).Value!.Hold;

    private async Task<OperationAnswer> SendAsync(int minutes, Func<PracticeRecord, PracticeRecord>? with = null)
    {
        var start = Now + Duration.FromMinutes(minutes);
        var record = _practice.Record() with { StartedAt = start, EndedAt = start + Duration.FromMinutes(2) };
        var sent = await _agency.Get<SyncOperations>().RunAsync(await _team.CallerAsync(_team.Odalys), _device, [_practice.Sent(with?.Invoke(record) ?? record)]);
        return Assert.Single(sent!);
    }

    private async Task<HeardHolds> HearAsync(DeviceState state = DeviceState.Active) => await _agency.Get<ReadHeardHolds>().RunAsync(await _team.CallerAsync(_team.Odalys), state);

    private async Task<IReadOnlyList<TeamDevice>> UnheardAsync()
    {
        var caller = await _team.CallerAsync(_team.Bram);
        return (await _agency.Get<ReadHolds>().RunAsync(caller, Scope.Of(caller), _team.Wren))!.Standing.Single().Unheard;
    }

    [Fact]
    public async Task Practice_that_began_under_a_hold_is_set_aside_and_others_are_stored()
    {
        var hold = await HoldAsync(OnIt);
        _agency.Clock.Advance(TimeSpan.FromHours(2));
        await _agency.Get<EndHold>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(),
            new() { Learner = _team.Wren, Hold = hold, Version = 1, Word = "Chair fitted.", AgreedBy = "Priya Lindqvist, physical therapist" });

        Assert.Equal(OperationEnd.Stored, (await SendAsync(-1)).End); // begun before anybody said so
        var aside = await SendAsync(0);
        Assert.Equal((OperationEnd.SetAside, "There was a hold on it: Wren has a new chair."), (aside.End, aside.Why));
        Assert.Equal(OperationEnd.SetAside, (await SendAsync(115)).End);
        Assert.Equal(OperationEnd.Stored, (await SendAsync(120)).End);
        var kept = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.SetAsides.Where(s => s.AgencyId == _agency.Id).ToListAsync());
        Assert.Equal([_team.Wren, _team.Wren], kept.Select(s => s.LearnerId!.Value));
    }

    [Fact]
    public async Task Practice_under_a_hold_is_entered_knowingly_by_whoever_may_end_it_and_the_hold_stays_beside_it()
    {
        var hold = await HoldAsync(OnIt);
        await SendAsync(1);
        var aside = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.SetAsides.SingleAsync(s => s.AgencyId == _agency.Id));
        async Task<Outcome<EnterSetAside.Entered>> EnterAsync(int who, string? word) =>
            await _agency.Get<EnterSetAside>().RunAsync(await _team.CallerAsync(who), Guid.CreateVersion7(), new(aside.Id, aside.Version, word));

        Assert.Equal([RecordPractice.HoldField], (await EnterAsync(_team.Marisol, null)).Problems.Select(p => p.Field));
        Assert.Equal([RecordPractice.HoldField], (await EnterAsync(_team.Marisol, " ")).Problems.Select(p => p.Field));
        Assert.Equal("The case manager enters it, or the discipline that owns what the hold lay on.", Assert.Single((await EnterAsync(_team.Odalys, "It did take place.")).Problems).Message);
        Assert.Empty((await EnterAsync(_team.Marisol, "It did take place; the tablet had not heard.")).Problems);

        var row = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Practices.SingleAsync(p => p.AgencyId == _agency.Id));
        Assert.Equal((_team.Odalys, _team.Marisol, "It did take place; the tablet had not heard."), (row.ProviderId, row.RecordedBy, row.UnderHoldsWord));
        Assert.Equal([hold], row.UnderHolds);
        var odalys = await _team.CallerAsync(_team.Odalys);
        var under = (await _agency.Get<ReadPractice>().RunAsync(odalys, Scope.Of(odalys), row.Id))!.Under!;
        Assert.Equal(("Wren has a new chair.", "Marisol Quenby"), (Assert.Single(under.Reasons), under.By));
    }

    [Fact]
    public async Task Hold_on_a_service_stops_practice_at_its_visits_only_and_minutes_are_logged_with_a_word()
    {
        await HoldAsync(OnIt with { Routine = null, Service = _team.Vision.Id, Reason = "Eye surgery on Monday." });
        var (visit, other) = (await _team.VisitAsync(day: new(2026, 10, 2)), await _team.VisitAsync(service: await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Odalys), day: new(2026, 10, 2), start: new(13, 0)));

        Assert.Equal("There was a hold on the service at whose visit it was practised: Eye surgery on Monday.", (await SendAsync(1, r => r with { Visit = visit.Id })).Why);
        Assert.Equal([OperationEnd.Stored, OperationEnd.Stored], [(await SendAsync(2, r => r with { Visit = other.Id })).End, (await SendAsync(3)).End]);
        Assert.Equal([_team.Vision.Id], Assert.Single((await HearAsync()).Holds).Services!);
        var bundle = (await _agency.Get<ReadBundle>().RunAsync(await _team.CallerAsync(_team.Odalys), _device))!;
        Assert.Equal(_team.Vision.Id, bundle.Visits.Single(v => v.Id == visit.Id).ServiceId);

        var logged = await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new() { Visits = [visit.Id], Start = "8:00", End = "8:40" });
        Assert.Contains("There is a hold on this service: Eye surgery on Monday. Minutes are logged all the same; nothing is to be practised.", logged.Value!.Notices);
    }

    [Fact]
    public async Task Held_step_may_be_left_out_and_a_held_part_stops_cards_that_use_it()
    {
        await HoldAsync(OnIt with { Step = "press" });
        Assert.Equal(OperationEnd.SetAside, (await SendAsync(1)).End);
        Assert.Equal(OperationEnd.Stored, (await SendAsync(1, r => r with { Trials = [], Steps = [new("show", HowDone.AsWritten), new("press", HowDone.Skipped, "hold")] })).End);

        await HoldAsync(OnIt with { Routine = null, Part = TeachPart.Position });
        Assert.Equal(OperationEnd.Stored, (await SendAsync(1, r => r with { Trials = [], Steps = [new("show", HowDone.AsWritten)] })).End);
        await HoldAsync(OnIt with { Routine = null, Part = TeachPart.Switch });
        Assert.Equal(OperationEnd.SetAside, (await SendAsync(1, r => r with { Trials = [], Steps = [new("show", HowDone.AsWritten)] })).End);
    }

    [Fact]
    public async Task Device_hears_holds_by_short_codes_and_it_is_on_record()
    {
        Assert.Equal((24, 0), ((await HearAsync()).ContactHours, (await HearAsync()).Holds.Count));
        var routine = await HoldAsync(OnIt);
        var part = await HoldAsync(OnIt with { Routine = null, Part = TeachPart.Switch, ToldAs = HoldWord.Own, ToldBy = null, ToldOn = null });
        var all = await HoldAsync(OnIt with { Routine = null, Part = TeachPart.SignalStop });
        await TestPractice.CreateAsync(_agency, _team, "Bell", new() { Cue = "a bell" });

        var heard = (await HearAsync()).Holds.OrderBy(h => h.Id).ToList();

        var id = _practice.Version.RoutineId;
        Assert.Equal([(routine, id, null), (part, id, TeachPart.Switch), (all, (int?)null, (TeachPart?)TeachPart.SignalStop)], heard.Select(h => (h.Id, h.Routine, h.Part)));
        Assert.Equal(("WREN has a new chair.", "Ines WREN (parent)", Now, _team.Wren), (heard[0].Reason, heard[0].ToldBy, heard[0].Since, heard[0].Learner));
        Assert.Equal("Bram Nakamura", heard[1].ToldBy);
        var record = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Accesses.SingleAsync(a => a.AgencyId == _agency.Id && a.Page == "GET /device/contact"));
        Assert.Equal([_team.Wren], record.LearnerIds);
        Assert.Equal(_team.Odalys, record.PersonId);
        Assert.Empty((await HearAsync(DeviceState.Revoked)).Holds);
    }

    [Fact]
    public async Task Hold_set_on_a_device_is_stored_once_and_one_that_may_not_be_is_set_aside_whole()
    {
        var body = new { learner = _team.Wren, part = "hands", reason = "Her elbow is swollen.", toldAs = "nurse", toldBy = "Sela Brandt", toldOn = "2026-10-02", toldTime = "08:30:00" };
        var sent = TestPractice.Sent("hold", body);
        async Task<OperationAnswer> SendAsync(System.Text.Json.JsonElement what) => (await _agency.Get<SyncOperations>().RunAsync(await _team.CallerAsync(_team.Odalys), _device, [what]))!.Single();

        Assert.Equal([OperationEnd.Stored, OperationEnd.Stored], [(await SendAsync(sent)).End, (await SendAsync(sent)).End]);
        await _agency.ChangeAsync<Data.People.RelationRow>(r => r.PersonId == _team.Odalys && r.LearnerId == _team.Wren, r => r.ToDay = new(2026, 10, 1));
        var aside = await SendAsync(TestPractice.Sent("hold", body));

        var hold = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Holds.SingleAsync(h => h.AgencyId == _agency.Id));
        Assert.Equal((TeachPart.Hands, HoldWord.Nurse, new LocalTime(8, 30)), (hold.TeachPart, hold.ToldAs, hold.ToldTime));
        Assert.Equal(OperationEnd.SetAside, aside.End);
        Assert.Equal(_team.Wren, (await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.SetAsides.SingleAsync(s => s.AgencyId == _agency.Id))).LearnerId);
    }

    [Fact]
    public async Task Whoever_set_it_sees_the_teams_devices_that_have_not_heard()
    {
        await _practice.DeviceAsync(_team, _team.Priya, "Priya's"); // works with other learners
        await HoldAsync(OnIt);
        Assert.Equal([new TeamDevice("Odalys Ferreira", "Tablet", null)], await UnheardAsync());

        var odalys = await _team.CallerAsync(_team.Odalys);
        await _agency.Get<ReportContact>().RunAsync(odalys, _device);
        Assert.Equal(new LocalDateTime(2026, 10, 2, 9, 0), Assert.Single(await UnheardAsync()).LastContact); // at the same moment: it may not have heard
        _agency.Clock.Advance(TimeSpan.FromMinutes(1));
        await _agency.Get<ReportContact>().RunAsync(odalys, _device);

        Assert.Empty(await UnheardAsync());
    }

    [Fact]
    public async Task Cautions_count_as_seen_once_practised_and_until_they_change()
    {
        await _team.VisitAsync(day: new(2026, 10, 2));
        async Task<int?> SeenAsync() => (await _agency.Get<ReadBundle>().RunAsync(await _team.CallerAsync(_team.Odalys), _device))!.Routines.Single().CautionsSeen;
        Assert.Null(await SeenAsync());

        Assert.Equal(OperationEnd.Stored, (await SendAsync(-10)).End);
        Assert.Equal(_practice.Version.Id, await SeenAsync());
        await _agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = _team.Wren,
            RoutineId = _practice.Version.RoutineId,
            Number = 2,
            Content = (RoutineContent.Read(_practice.Version.Content) with { Cautions = [new("c1", CautionKind.Other, "Mains: dry hands.")] }).Write(),
            WrittenBy = _team.Odalys,
        });

        Assert.Null(await SeenAsync());
    }
}
