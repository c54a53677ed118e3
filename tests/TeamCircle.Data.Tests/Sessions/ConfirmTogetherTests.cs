using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Sessions;

public sealed class ConfirmTogetherTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private ServiceRow _odalys = null!;
    private ServiceRow _bram = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"TOGETHER{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _odalys = await _team.ServiceAsync(_team.Wren, Discipline.Vision, _team.Odalys, CoTreatment.Shared);
        _bram = await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Bram, CoTreatment.Shared);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<Guid> LogAsync() => Assert.Single((await _agency.Get<LogSession>().RunAsync(
        await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(),
        new() { Services = [_odalys.Id], OnDay = new(2026, 9, 15), Start = "9:00", End = "10:00", PartnerId = _team.Bram, SharedMinutes = 40 })).Value!.Sessions);

    private async Task<Outcome<Saved>> ConfirmAsync(int person, Guid session, int? service = null, int minutes = 20) =>
        await _agency.Get<ConfirmTogether>().RunAsync(
            await _team.CallerAsync(person), Guid.CreateVersion7(),
            new() { Session = session, ServiceId = service ?? _bram.Id, SharedMinutes = minutes });

    private Task<List<SessionRow>> SessionsAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Sessions.Where(s => s.Live).OrderBy(s => s.Id).ToListAsync());

    private Task<List<VisitRow>> VisitsAsync() =>
        _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Visits.Where(v => v.Live).OrderBy(v => v.Id).ToListAsync());

    [Fact]
    public async Task Until_the_partner_confirms_it_counts_for_the_first_logger_only()
    {
        await LogAsync();

        var session = Assert.Single(await SessionsAsync());
        Assert.Equal((_odalys.Id, 40), (session.ServiceId, session.Credited));
    }

    [Fact]
    public async Task Partner_confirms_on_their_own_service_with_the_same_times_and_their_own_minutes()
    {
        var confirmed = await ConfirmAsync(_team.Bram, await LogAsync());

        Assert.Empty(confirmed.Problems);
        Assert.Empty(confirmed.Value!.Notices);
        var own = (await SessionsAsync())[1];
        Assert.Equal((_bram.Id, _team.Bram, _team.Odalys, 20), (own.ServiceId, own.ProviderId, own.PartnerId!.Value, own.Credited));
        Assert.Equal((new LocalTime(9, 0), new LocalTime(10, 0), true), (own.StartTime, own.EndTime, own.Observed));
        Assert.Single((await VisitsAsync()).Select(v => v.TogetherNo).Distinct());
    }

    private async Task<Outcome<DeclineTogether.Declined>> DeclineAsync(int person, Guid session, string why = "I came in the afternoon.") =>
        await _agency.Get<DeclineTogether>().RunAsync(await _team.CallerAsync(person), Guid.CreateVersion7(), new() { Session = session, Why = why });

    private async Task<MyDay> DayAsync(int person)
    {
        var caller = await _team.CallerAsync(person);
        return await _agency.Get<ReadMyDay>().RunAsync(caller, Scope.Of(caller));
    }

    [Fact]
    public async Task Partner_says_that_it_was_not_given_together_and_the_first_logger_reads_why()
    {
        var session = await LogAsync();
        Assert.Single((await DayAsync(_team.Bram)).Together);

        Assert.Empty((await DeclineAsync(_team.Bram, session)).Problems);

        Assert.Empty((await DayAsync(_team.Bram)).Together);
        var declined = Assert.Single((await DayAsync(_team.Odalys)).Declined);
        Assert.Equal(("I came in the afternoon.", new LocalDate(2026, 9, 15)), (declined.Why, declined.On));
        Assert.Equal(40, Assert.Single(await SessionsAsync()).Credited);
        Assert.NotEmpty((await ConfirmAsync(_team.Bram, session)).Problems);
    }

    [Fact]
    public async Task Only_the_named_partner_declines_with_a_reason_and_before_confirming()
    {
        var session = await LogAsync();

        Assert.Contains(Problem.NotFound, (await DeclineAsync(_team.Odalys, session)).Problems);
        Assert.Equal(nameof(DeclineTogether.Input.Why), Assert.Single((await DeclineAsync(_team.Bram, session, " ")).Problems).Field);
        Assert.Empty((await ConfirmAsync(_team.Bram, session)).Problems);
        Assert.NotEmpty((await DeclineAsync(_team.Bram, session)).Problems);
    }

    [Fact]
    public async Task Confirming_uses_the_partners_own_scheduled_visit()
    {
        var session = await LogAsync();
        var first = Assert.Single(await VisitsAsync());
        var planned = await _team.VisitAsync(_bram, _team.Bram, start: new(9, 15), with: v => v.TogetherNo = first.TogetherNo);

        await ConfirmAsync(_team.Bram, session);

        Assert.Equal((VisitState.Logged, 60), ((await VisitsAsync())[1].State, (await VisitsAsync())[1].Minutes));
        Assert.Equal(planned.Id, (await SessionsAsync())[1].VisitId);
    }

    [Fact]
    public async Task Confirming_twice_counts_once()
    {
        var session = await LogAsync();
        await ConfirmAsync(_team.Bram, session);

        Assert.Contains("already confirmed", Assert.Single((await ConfirmAsync(_team.Bram, session)).Problems).Message, StringComparison.Ordinal);
        Assert.Equal(2, (await SessionsAsync()).Count);
    }

    [Fact]
    public async Task Ten_confirmations_at_once_count_once()
    {
        var (session, caller) = (await LogAsync(), await _team.CallerAsync(_team.Bram));

        var all = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => Task.Run(() => _agency.Get<ConfirmTogether>().RunAsync(
            caller, Guid.CreateVersion7(), new() { Session = session, ServiceId = _bram.Id, SharedMinutes = 20 }))));

        Assert.Single(all, o => o.Value is not null);
        Assert.Equal(2, (await SessionsAsync()).Count);
    }

    [Fact]
    public async Task Service_without_co_treatment_or_of_the_first_logger_cannot_confirm()
    {
        var session = await LogAsync();
        var alone = await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Bram);

        Assert.Equal("ServiceId", Assert.Single((await ConfirmAsync(_team.Bram, session, _odalys.Id)).Problems).Field);
        Assert.Contains(await ConfirmProblemsAsync(session, alone.Id), p => p.Field == "ServiceId" && p.Message.Contains("co-treatment", StringComparison.Ordinal));
    }

    private async Task<IReadOnlyList<Problem>> ConfirmProblemsAsync(Guid session, int service) => (await ConfirmAsync(_team.Bram, session, service)).Problems;

    [Fact]
    public async Task Only_the_named_partner_can_confirm()
    {
        var session = await LogAsync();

        Assert.Equal([Problem.NotFound], (await ConfirmAsync(_team.Marisol, session)).Problems);
        Assert.Equal([Problem.NotFound], (await ConfirmAsync(_team.Odalys, session)).Problems);
        Assert.Equal([Problem.NotFound], (await ConfirmAsync(_team.Priya, session)).Problems);
    }
}
