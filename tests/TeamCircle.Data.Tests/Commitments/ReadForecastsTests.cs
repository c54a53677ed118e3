using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Wren's vision visits with Odalys on Tuesdays of September, seen on Friday 2 October.</summary>
public sealed class ReadForecastsTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Today = new(2026, 10, 2);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"FORECAST{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task PastAsync(int day, VisitOutcome outcome = VisitOutcome.Given)
    {
        var visit = await _team.VisitAsync(day: new(2026, 9, day), minutes: 60);
        var saved = await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), new()
        {
            Visits = [visit.Id],
            Outcome = outcome,
            Reason = outcome == VisitOutcome.Given ? null : Reason.ProviderUnwell,
        });
        Assert.Empty(saved.Problems);
    }

    private async Task<LineForecast?> ForecastAsync()
    {
        var standing = (await _agency.Get<ReadStandingLines>().RunAsync(_agency.WholeAgency, Today, _team.Wren)).OfService(_team.Vision.Id)!;
        return (await _agency.Get<ReadForecasts>().RunAsync(_agency.WholeAgency, Today, [_team.Wren])).Of(standing.Line, standing.Working);
    }

    [Fact]
    public async Task Forecast_rests_on_visits_that_took_place_without_closures_days_away_and_what_nobody_logged()
    {
        foreach (var day in new[] { 1, 3, 8, 15 })
            await PastAsync(day);
        await PastAsync(22, VisitOutcome.NotOffered);
        await _team.VisitAsync(day: new(2026, 9, 24), with: v => (v.State, v.CalledOff) = (VisitState.CalledOff, Reason.FamilyAskedToMove));
        await _team.VisitAsync(day: new(2026, 9, 29)); // nobody logged it
        await PastAsync(10, VisitOutcome.NotOffered);
        await _agency.AddAsync(new ClosureRow { OnDay = new(2026, 9, 10), Name = "Storm", Kind = ClosureKind.Unscheduled });
        await PastAsync(17, VisitOutcome.NotOffered);
        await _agency.AddAsync(new AwayRow { LearnerId = _team.Wren, FromDay = new(2026, 9, 17), UntilDay = new(2026, 9, 18), RecordedBy = _team.Marisol });
        await _team.VisitAsync(day: new(2026, 10, 6), minutes: 60);

        var forecast = await ForecastAsync();

        Assert.Equal(new PastVisits(6, 4), forecast!.Past);
        Assert.Equal(0, forecast.Forecast.Chance); // weeks without any visit planned lack for certain
    }

    [Fact]
    public async Task Forecast_waits_for_five_past_visits()
    {
        foreach (var day in new[] { 1, 3, 8, 15 })
            await PastAsync(day);
        Assert.Null(await ForecastAsync());

        await PastAsync(22);

        Assert.Equal(new PastVisits(5, 5), (await ForecastAsync())!.Past);
    }

    [Fact]
    public async Task Learner_out_of_reach_adds_nothing()
    {
        foreach (var day in new[] { 1, 3, 8, 15, 22 })
            await PastAsync(day);
        var standing = (await _agency.Get<ReadStandingLines>().RunAsync(_agency.WholeAgency, Today, _team.Wren)).OfService(_team.Vision.Id)!;

        var forecasts = await _agency.Get<ReadForecasts>().RunAsync(_agency.Person(_team.Priya), Today, [_team.Wren]);

        Assert.Null(forecasts.Of(standing.Line, standing.Working));
    }
}
