using Microsoft.EntityFrameworkCore;
using NodaTime;
using Npgsql;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>What the database itself says about people on the way from one visit to the next.</summary>
public sealed class TravelWallTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Day = new(2026, 10, 6);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private ServiceRow _jonahs = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"TRAVEL{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
        var east = await _agency.AddAsync(new PlaceRow { Code = "E1", Name = "East side", Kind = Place.Home });
        var west = await _agency.AddAsync(new PlaceRow { Code = "W1", Name = "West side", Kind = Place.Home });
        await _agency.AddAsync(new TravelTimeRow { FromPlaceId = east.Id, ToPlaceId = west.Id, Minutes = 20 });
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Wren, Kind = Place.Home, PlaceId = east.Id });
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Jonah, Kind = Place.Home, PlaceId = west.Id });
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    [Theory]
    [InlineData(64, false)]
    [InlineData(65, true)]
    public async Task Next_visit_begins_no_sooner_than_the_way_takes_in_either_order(int minutesLater, bool fits)
    {
        await _team.VisitAsync(day: Day, start: new(9, 0), minutes: 45);
        await _team.VisitAsync(day: Day.PlusDays(1), start: new LocalTime(9, 0).PlusMinutes(minutesLater), minutes: 45);

        Assert.Equal(fits, await FitsAsync(() => _team.VisitAsync(_jonahs, day: Day, start: new LocalTime(9, 0).PlusMinutes(minutesLater))));
        Assert.Equal(fits, await FitsAsync(() => _team.VisitAsync(_jonahs, day: Day.PlusDays(1), start: new(9, 0), minutes: 45)));
    }

    [Fact]
    public async Task Way_back_may_have_a_time_of_its_own()
    {
        var places = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Places.ToDictionaryAsync(p => p.Code, p => p.Id));
        await _agency.AddAsync(new TravelTimeRow { FromPlaceId = places["W1"], ToPlaceId = places["E1"], Minutes = 5 });
        await _team.VisitAsync(_jonahs, day: Day, start: new(9, 0), minutes: 45);

        Assert.True(await FitsAsync(() => _team.VisitAsync(day: Day, start: new(9, 50), minutes: 45)));
        Assert.False(await FitsAsync(() => _team.VisitAsync(_jonahs, day: Day, start: new(10, 50), minutes: 45)));
    }

    [Fact]
    public async Task Moving_a_visit_is_checked_and_calling_it_off_frees_the_way()
    {
        var first = await _team.VisitAsync(day: Day, start: new(9, 0), minutes: 45);
        var second = await _team.VisitAsync(_jonahs, day: Day, start: new(11, 0), minutes: 45);

        Assert.False(await FitsAsync(() => _agency.ChangeAsync<VisitRow>(v => v.Id == second.Id, v => v.TakePlace(Day, new(9, 50), 45))));
        await _agency.ChangeAsync<VisitRow>(v => v.Id == first.Id, v => v.State = VisitState.CalledOff);
        Assert.True(await FitsAsync(() => _agency.ChangeAsync<VisitRow>(v => v.Id == second.Id, v => v.TakePlace(Day, new(9, 50), 45))));
    }

    [Fact]
    public async Task What_was_logged_is_never_refused_for_the_way()
    {
        await _team.VisitAsync(day: Day, start: new(9, 0), minutes: 45);

        Assert.True(await FitsAsync(() => _team.VisitAsync(_jonahs, day: Day, start: new(9, 50), with: v => v.State = VisitState.Logged)));
    }

    [Fact]
    public async Task Where_no_place_or_no_time_is_known_nothing_is_refused()
    {
        await _team.VisitAsync(day: Day, start: new(9, 0), minutes: 45);

        Assert.True(await FitsAsync(() => _team.VisitAsync(_jonahs, day: Day, start: new(9, 45), with: v => v.Place = Place.School)));
    }

    [Fact]
    public async Task Colleagues_see_when_somebody_is_taken_and_where_but_nobody_else_does()
    {
        await _team.VisitAsync(_jonahs, day: Day, start: new(9, 0), minutes: 45);

        Assert.Equal(["16:00-16:45 W1"], await BusyAsync(_agency.Person(_team.Marisol, _team.Wren)));
        Assert.Empty(await BusyAsync(_agency.Person(_team.Priya)));
        Assert.Empty(await BusyAsync(_agency.Person(_team.Ines, _team.Wren) with { Staff = false }));
    }

    private Task<List<string>> BusyAsync(Scope scope)
    {
        var (from, to) = (Instant.FromUtc(2026, 10, 6, 7, 0), Instant.FromUtc(2026, 10, 7, 7, 0));
        return _agency.Portal.ReadAsync(scope, db => db.Database.SqlQuery<string>(
            $"""
            select to_char(starts at time zone 'UTC', 'HH24:MI') || '-' || to_char(ends at time zone 'UTC', 'HH24:MI') || ' ' || place_code as "Value"
            from portal.provider_busy({_team.Odalys}, {from}, {to})
            """).ToListAsync());
    }

    private static async Task<bool> FitsAsync(Func<Task> write)
    {
        try
        {
            await write();
            return true;
        }
        catch (DbUpdateException refused) when (refused.InnerException is PostgresException { SqlState: "TC003" })
        {
            return false;
        }
    }
}
