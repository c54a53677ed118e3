using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Routines;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Devices;

public sealed class SyncOperationsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private TestPractice _practice = null!;
    private Guid _device;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"SYNC{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _practice = await TestPractice.CreateAsync(_agency, _team);
        _device = await _practice.DeviceAsync(_team, _team.Odalys);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<IReadOnlyList<OperationAnswer>> SendAsync(params JsonElement[] operations) =>
        (await _agency.Get<SyncOperations>().RunAsync(await _team.CallerAsync(_team.Odalys), _device, operations))!;

    private Task<T> ReadAsync<T>(Func<PortalDb, Task<T>> read) => _agency.Portal.ReadAsync(_agency.WholeAgency, read);

    private Task<List<SetAsideRow>> AsideAsync() => ReadAsync(db => db.SetAsides.Where(s => s.AgencyId == _agency.Id).ToListAsync());

    private Task<int> PracticesAsync() => ReadAsync(db => db.Practices.CountAsync(p => p.AgencyId == _agency.Id));

    private JsonElement Probe(object? value = null, Guid? id = null) =>
        TestPractice.Sent("probe", new { goalId = _team.Gaze.Id, onDay = "2026-09-15", value = value ?? 37.5, opportunities = 8, kind = "probe" }, id);

    private static JsonElement Visit(Guid visit, Guid? id = null) =>
        TestPractice.Sent("visit", new { visits = new[] { visit }, outcome = "given", start = "9:00", end = "9:45", note = "Fan and ribbons", version = 1 }, id);

    [Fact]
    public async Task Practice_visit_and_probe_are_stored_and_answered_in_order()
    {
        var visit = await _team.VisitAsync();
        var record = _practice.Record(visit.Id);

        var answers = await SendAsync(_practice.Sent(record), Visit(visit.Id), Probe());

        Assert.All(answers, a => Assert.Equal((OperationEnd.Stored, null), (a.End, a.Why)));
        Assert.Equal((1, 1, 1), await ReadAsync(async db => (
            await db.Practices.CountAsync(p => p.Id == record.Id && p.VisitId == visit.Id && p.DeviceId == _device),
            await db.Sessions.CountAsync(s => s.VisitId == visit.Id && s.Credited == 45), await db.Probes.CountAsync(p => p.GoalId == _team.Gaze.Id))));
        Assert.Empty(await AsideAsync());
    }

    [Fact]
    public async Task Trials_are_kept_with_their_figures_and_the_record_as_it_came()
    {
        var record = _practice.Record();
        await SendAsync(_practice.Sent(record, skewMs: 600_000));

        var row = await ReadAsync(db => db.Practices.SingleAsync(p => p.Id == record.Id));
        var trials = await ReadAsync(db => db.Trials.Where(t => t.PracticeId == record.Id).OrderBy(t => t.PromptsNeeded).ToListAsync());

        Assert.Equal(PracticeJson.Write(record), PracticeJson.Write(PracticeJson.Read(row.Record)));
        Assert.Equal(record.StartedAt - Duration.FromMinutes(10), row.StartedAt);
        Assert.Equal((_agency.Day(9, 15), _team.Odalys, _team.Wren), (row.OnDay, row.ProviderId, row.LearnerId));
        Assert.Equal((10_000, 22_000, null, true), (trials[0].TimeToRespond, trials[0].Completed, trials[0].CensoredAt, trials[0].WaitKept));
        Assert.Equal((1, 12_500, TrialEnd.Response), (trials[1].PromptsNeeded, trials[1].CensoredAt, trials[1].Ending));
        Assert.Equal([_team.Gaze.Id], trials[0].Goals);
    }

    [Fact]
    public async Task Repeat_gets_the_first_answer_in_the_same_words_and_other_content_is_refused()
    {
        var (id, record) = (Guid.CreateVersion7(), _practice.Record());
        var first = Assert.Single(await SendAsync(_practice.Sent(record, id)));

        var again = Assert.Single(await SendAsync(_practice.Sent(record, id)));
        var other = Assert.Single(await SendAsync(_practice.Sent(record with { Entry = PracticeEntry.Remembered }, id)));
        var otherKind = Assert.Single(await SendAsync(Probe(id: id)));

        Assert.Equal(JsonSerializer.SerializeToElement(first, DeviceJson.Options), JsonSerializer.SerializeToElement(again, DeviceJson.Options), JsonElement.DeepEquals);
        Assert.Equal(OperationEnd.Refused, other.End);
        Assert.Equal(OperationEnd.Refused, otherKind.End);
        Assert.Equal(1, await PracticesAsync());
    }

    [Fact]
    public async Task What_rules_refuse_is_set_aside_whole_with_the_words_why_and_the_rest_goes_on()
    {
        var (id, probe) = (Guid.CreateVersion7(), Probe());
        var wrong = Probe(101, id);

        var answers = await SendAsync(wrong, probe);
        var again = Assert.Single(await SendAsync(wrong));

        Assert.Equal([OperationEnd.SetAside, OperationEnd.Stored], answers.Select(a => a.End));
        Assert.Equal("A percentage lies between 0 and 100.", answers[0].Why);
        Assert.Equal((answers[0].End, answers[0].Why), (again.End, again.Why));
        var aside = Assert.Single(await AsideAsync());
        Assert.Equal((id, _team.Odalys, _team.Wren, OperationKind.Probe, _device), (aside.OperationId, aside.PersonId, aside.LearnerId, aside.Kind, aside.DeviceId!.Value));
        Assert.Equal(wrong.GetProperty("body").GetRawText(), aside.Body);
        Assert.Equal(OperationEnd.Refused, Assert.Single(await SendAsync(Probe(102, id))).End);
    }

    [Fact]
    public async Task Closed_period_lost_right_and_clash_each_set_aside()
    {
        var (taken, clash) = (await _team.VisitAsync(), await _team.VisitAsync(start: new(11, 0)));
        var overlapping = TestPractice.Sent("visit", new { visits = new[] { clash.Id }, outcome = "given", start = "9:15", end = "10:00" });
        Assert.Equal("This person already has a visit at that time. Choose another time, or mark both as one group session.", Assert.Single(await SendAsync(overlapping)).Why);

        await _agency.ChangeAsync<LearnerPeriodRow>(
            p => p.LearnerId == _team.Wren && p.PeriodId == _team.Period.Id, p => (p.ClosedAt, p.ClosedBy) = (Instant.FromUtc(2026, 10, 1, 0, 0), _team.Marisol));
        Assert.Contains("closed", Assert.Single(await SendAsync(Visit(taken.Id))).Why, StringComparison.Ordinal);

        await _agency.ChangeAsync<RelationRow>(r => r.PersonId == _team.Odalys && r.LearnerId == _team.Wren, r => r.ToDay = _agency.Day(10, 1));
        Assert.Contains("not on the learner's team", Assert.Single(await SendAsync(_practice.Sent(_practice.Record()))).Why, StringComparison.Ordinal);

        var aside = await AsideAsync();
        Assert.Equal(3, aside.Count);
        Assert.All(aside, a => Assert.Equal(_team.Wren, a.LearnerId)); // also where the person has no right to her any more
        Assert.Equal(0, await ReadAsync(db => db.Sessions.CountAsync(s => s.AgencyId == _agency.Id)));
    }

    [Fact]
    public async Task Routine_whose_physical_part_nobody_reviewed_is_set_aside_and_one_that_was_is_stored()
    {
        var card = TestPractice.Card(_team.Gaze.Id) with { Position = "in the wedge chair" };
        var physical = await TestPractice.CreateAsync(_agency, _team, "Warm towel hello", card);
        Assert.Contains("no review", Assert.Single(await SendAsync(physical.Sent(physical.Record()))).Why, StringComparison.Ordinal);

        await _agency.AddAsync(new RoutineReviewRow
        {
            LearnerId = _team.Wren,
            VersionId = physical.Version.Id,
            PersonId = _team.Bram,
            Discipline = Core.Learners.Discipline.OccupationalTherapy,
            ReviewedOn = _agency.Day(9, 15),
        });

        Assert.Equal(OperationEnd.Stored, Assert.Single(await SendAsync(physical.Sent(physical.Record()))).End);
    }

    [Theory]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 3, "kind": "probe", "made": "2026-09-15T16:16:00Z", "body": {} }""", "form 3")]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 0, "kind": "probe", "made": "2026-09-15T16:16:00Z", "body": {} }""", "form 0")]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 1, "kind": "wish", "made": "2026-09-15T16:16:00Z", "body": {} }""", "kind")]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 1, "kind": "probe", "made": "2026-09-15T16:16:00Z", "body": { "learner": 1 } }""", "learner")]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 1, "kind": "probe", "made": "2026-09-15T16:16:00Z", "body": [] }""", "object")]
    [InlineData("""{ "id": "0199a1b2-0000-7000-8000-000000000009", "format": 1, "kind": "probe", "made": "2026-09-15T16:16:00Z", "body": { "goalId": 1, "conditions": "\ud800" } }""", "")]
    public async Task Malformed_is_refused_by_name_and_nothing_of_it_is_kept(string json, string says)
    {
        var answer = Assert.Single(await SendAsync(JsonDocument.Parse(json).RootElement));

        Assert.Equal((Guid.Parse("0199a1b2-0000-7000-8000-000000000009"), OperationEnd.Refused), (answer.Id!.Value, answer.End));
        Assert.Contains(says, answer.Why, StringComparison.Ordinal);
        Assert.Equal(0, await ReadAsync(db => db.Operations.CountAsync(o => o.Id == answer.Id)));
    }

    [Theory]
    [InlineData("7")]
    [InlineData("null")]
    [InlineData("""{ "format": 1 }""")]
    public async Task What_has_no_number_is_refused_and_the_rest_goes_on(string json)
    {
        var answers = await SendAsync(JsonDocument.Parse(json).RootElement, _practice.Sent(_practice.Record()));

        Assert.Equal([OperationEnd.Refused, OperationEnd.Stored], answers.Select(a => a.End));
        Assert.Null(answers[0].Id);
    }

    [Fact]
    public async Task What_a_column_cannot_hold_is_set_aside_as_it_was_typed_and_does_not_stop_the_queue()
    {
        var zero = TestPractice.Sent("practice", JsonSerializer.SerializeToElement(_practice.Record() with { Conditions = new() { News = "a\0b" } }, DeviceJson.Options));

        var answers = await SendAsync(zero, _practice.Sent(_practice.Record()));

        Assert.Equal([OperationEnd.SetAside, OperationEnd.Stored], answers.Select(a => a.End));
        Assert.Contains(@"a\u0000b", Assert.Single(await AsideAsync()).Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_sends_from_somebody_elses_device_and_a_revoked_one_still_sends()
    {
        var bram = await _team.CallerAsync(_team.Bram);
        Assert.Null(await _agency.Get<SyncOperations>().RunAsync(bram, _device, [_practice.Sent(_practice.Record())]));
        Assert.Equal(0, await PracticesAsync());

        await _agency.Get<RevokeDevice>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new(_device));

        Assert.Equal(OperationEnd.Stored, Assert.Single(await SendAsync(_practice.Sent(_practice.Record()))).End);
    }

    [Fact]
    public async Task Practice_in_the_time_to_come_is_set_aside_unless_the_devices_clock_is_known_to_be_ahead()
    {
        var record = _practice.Record() with { StartedAt = Instant.FromUtc(2026, 10, 5, 16, 0), EndedAt = Instant.FromUtc(2026, 10, 5, 16, 10) };

        Assert.Equal(OperationEnd.SetAside, Assert.Single(await SendAsync(_practice.Sent(record))).End);
        var ahead = Assert.Single(await SendAsync(_practice.Sent(record, skewMs: 3 * 24 * 3_600_000 + 20 * 60_000)));

        Assert.Equal(OperationEnd.Stored, ahead.End);
        Assert.Contains("minutes ahead", JsonSerializer.Serialize(ahead.Answer), StringComparison.Ordinal);
        Assert.Equal(_agency.Day(10, 2), (await ReadAsync(db => db.Practices.SingleAsync(p => p.Id == record.Id))).OnDay);
    }

    [Fact]
    public async Task Same_act_from_two_places_at_once_is_stored_once()
    {
        var (operation, aside) = (_practice.Sent(_practice.Record()), Probe(101));

        var answers = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => SendAsync(operation, aside)));

        Assert.All(answers, a => Assert.Equal([OperationEnd.Stored, OperationEnd.SetAside], a.Select(one => one.End)));
        Assert.Equal(1, await PracticesAsync());
        Assert.Single(await AsideAsync());
    }
}
