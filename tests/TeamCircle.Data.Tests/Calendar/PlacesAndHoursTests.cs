using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>Places, ways and hours: what is set right keeps what was there before.</summary>
public sealed class PlacesAndHoursTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private CalendarAgency _agency = null!;
    private int _dele;

    public async ValueTask InitializeAsync()
    {
        _agency = await CalendarAgency.CreateAsync(database);
        _dele = await _agency.Team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<int> PlaceAsync(string code, int? id = null, int version = 0, bool remove = false) =>
        CalendarAgency.Value(await _agency.RunAsync<SavePlace, SavePlace.Saved>(_dele, (o, c, op) =>
            o.RunAsync(c, op, new() { Id = id, Version = version, Code = code, Name = $"Place {code}", Kind = Place.Home, Remove = remove }))).Place;

    private Task<Outcome<SetTravelTimes.Saved>> WayAsync(int from, int to, int? minutes, int? back) => _agency.RunAsync<SetTravelTimes, SetTravelTimes.Saved>(
        _dele, (o, c, op) => o.RunAsync(c, op, new() { Ways = [new() { From = from, To = to, Minutes = minutes, Back = back }] }));

    [Fact]
    public async Task Travel_time_that_is_set_is_what_the_calendar_refuses_by()
    {
        var (east, west) = (await PlaceAsync("E1"), await PlaceAsync("W1"));
        Assert.Equal(1, CalendarAgency.Value(await WayAsync(east, west, 20, null)).Changed);
        Assert.Equal(0, CalendarAgency.Value(await WayAsync(east, west, 20, null)).Changed);
        await _agency.Agency.AddAsync(new LearnerPlaceRow { LearnerId = _agency.Team.Wren, Kind = Place.Home, PlaceId = east });
        await _agency.Agency.AddAsync(new LearnerPlaceRow { LearnerId = _agency.Team.Jonah, Kind = Place.Home, PlaceId = west });
        var jonahs = await _agency.Team.ServiceAsync(_agency.Team.Jonah, Discipline.Vision, _agency.Team.Odalys);
        await _agency.Team.VisitAsync(jonahs, day: new(2026, 10, 6), start: new(8, 0), minutes: 45);
        Task<Outcome<ScheduleVisit.Saved>> At(int minute) => _agency.RunAsync<ScheduleVisit, ScheduleVisit.Saved>(_agency.Team.Odalys, (o, c, id) =>
            o.RunAsync(c, id, new() { Learner = _agency.Team.Wren, ServiceId = _agency.Team.Vision.Id, OnDay = new(2026, 10, 6), Start = new(9, minute), Minutes = 30 }));

        Assert.Equal("Odalys Ferreira needs 20 minutes from W1 to here and has 15.", Assert.Single((await At(0)).Problems).Message);
        CalendarAgency.Value(await At(5));
        CalendarAgency.Value(await WayAsync(east, west, null, null));
        Assert.Equal(0, await _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.TravelTimes.CountAsync(t => t.AgencyId == _agency.Agency.Id)));
    }

    [Fact]
    public async Task Way_that_takes_longer_than_over_another_place_is_refused()
    {
        var (east, mill, west) = (await PlaceAsync("E1"), await PlaceAsync("M1"), await PlaceAsync("W1"));
        CalendarAgency.Value(await WayAsync(east, mill, 20, null));
        CalendarAgency.Value(await WayAsync(mill, west, 15, null));

        var refused = await WayAsync(east, west, 36, null);
        CalendarAgency.Value(await WayAsync(east, west, 35, null));
        var shortened = await WayAsync(east, mill, 10, null);

        Assert.Equal("From E1 to W1 it takes 36 minutes, but over other places of the table only 35. Enter at most 35, or correct those.", Assert.Single(refused.Problems).Message);
        Assert.Contains("From E1 to W1 it takes 35 minutes", Assert.Single(shortened.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Most_minutes_a_day_are_kept_within_a_day_and_can_be_none()
    {
        Task<Outcome<SetWorkingHours.Saved>> Set(int? most) => _agency.RunAsync<SetWorkingHours, SetWorkingHours.Saved>(_dele, (o, c, op) =>
            o.RunAsync(c, op, new() { Person = _agency.Team.Bram, Week = new() { FromDay = new(2026, 10, 2) }, MostMinutes = most }));
        async Task<int?> KeptAsync() => (await _agency.Agency.Get<ReadPlaces>().OfPersonAsync(_agency.Agency.WholeAgency, _agency.Team.Bram, new(2026, 10, 2)))!.MostMinutes;

        CalendarAgency.Value(await Set(180));
        Assert.Equal(180, await KeptAsync());
        Assert.Equal("MostMinutes", Assert.Single((await Set(0)).Problems).Field);
        CalendarAgency.Value(await Set(null));
        Assert.Null(await KeptAsync());
    }

    [Fact]
    public async Task Place_in_use_stays_and_a_code_is_given_once()
    {
        var place = await PlaceAsync("H1");
        await _agency.Agency.AddAsync(new LearnerPlaceRow { LearnerId = _agency.Team.Wren, Kind = Place.Home, PlaceId = place });
        var again = await _agency.RunAsync<SavePlace, SavePlace.Saved>(_dele, (o, c, op) => o.RunAsync(c, op, new() { Code = "H1", Name = "Another" }));
        var removed = await _agency.RunAsync<SavePlace, SavePlace.Saved>(_dele, (o, c, op) => o.RunAsync(c, op, new() { Id = place, Version = 1, Code = "H1", Name = "Gone", Remove = true }));
        var stranger = await _agency.RunAsync<SavePlace, SavePlace.Saved>(_agency.Team.Odalys, (o, c, op) => o.RunAsync(c, op, new() { Code = "H2", Name = "Hers" }));

        Assert.Equal("Code", Assert.Single(again.Problems).Field);
        Assert.Contains("can't be taken out", Assert.Single(removed.Problems).Message, StringComparison.Ordinal);
        Assert.Equal([Problem.NotFound], stranger.Problems);
    }

    [Fact]
    public async Task New_hours_hold_from_their_day_on_and_the_old_ones_for_the_days_before()
    {
        Task<Outcome<SetWorkingHours.Saved>> Set(LocalDate from, string monday) => _agency.RunAsync<SetWorkingHours, SetWorkingHours.Saved>(_dele, (o, c, op) =>
            o.RunAsync(c, op, new() { Person = _agency.Team.Bram, Week = new() { FromDay = from, Days = [monday, "", "", "", "", "", ""] } }));

        Assert.Equal(2, CalendarAgency.Value(await Set(new(2026, 9, 1), "8:00 to 12:00, 13:00 to 16:30")).Spans);
        CalendarAgency.Value(await Set(new(2026, 10, 5), "9-3"));

        var rows = await _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.WorkingHours.Where(h => h.PersonId == _agency.Team.Bram).OrderBy(h => h.FromDay).ThenBy(h => h.FromTime).ToListAsync());
        Assert.Equal(["8:00-12:00 2026-09-01..2026-10-04", "13:00-16:30 2026-09-01..2026-10-04", "9:00-15:00 2026-10-05.."],
            rows.Select(r => FormattableString.Invariant($"{r.FromTime:H:mm}-{r.ToTime:H:mm} {r.FromDay:uuuu-MM-dd}..{r.ToDay:uuuu-MM-dd}")));
    }

    [Fact]
    public async Task Case_manager_says_when_and_where_a_learner_can_be_visited()
    {
        var (home, other) = (await PlaceAsync("H1"), await PlaceAsync("H2"));
        Task<Outcome<SetOpenHours.Saved>> Set(int by, int? place) => _agency.RunAsync<SetOpenHours, SetOpenHours.Saved>(by, (o, c, op) => o.RunAsync(c, op,
            new() { Learner = _agency.Team.Wren, Week = new() { FromDay = new(2026, 10, 5), Days = ["9:00 to 11:30", "", "", "", "", "", ""] }, Places = [place, null, null, null] }));

        Assert.Equal([Problem.NotFound], (await Set(_agency.Team.Odalys, home)).Problems);
        CalendarAgency.Value(await Set(_agency.Team.Marisol, home));
        CalendarAgency.Value(await Set(_agency.Team.Marisol, other));

        var page = await _agency.Agency.Get<ReadPlaces>().OfLearnerAsync(_agency.Agency.Person(_agency.Team.Marisol, _agency.Team.Wren), _agency.Team.Wren, new(2026, 10, 5));
        Assert.Equal(("9:00 to 11:30", other), (page!.Week.Days[0], page.Places[0]!.Value));
    }

    [Theory]
    [InlineData("", 0)]
    [InlineData("8 to 12, 1 pm to 4:30 pm", 2)]
    [InlineData("13:00–15:00; 8-9", 2)]
    [InlineData("8:00", -1)]
    [InlineData("12:00 to 8:00 am", -1)]
    [InlineData("8:00 to 12:00, 11:00 to 13:00", -1)]
    [InlineData("all day", -1)]
    public void Hours_are_read_as_people_write_them(string text, int spans) => Assert.Equal(spans, HoursText.Read(text)?.Count ?? -1);

    [Fact]
    public async Task Long_open_time_away_asks_the_case_manager_to_meet_in_Today_and_in_the_audit()
    {
        await _agency.Agency.AddAsync(new AwayRow { LearnerId = _agency.Team.Wren, Reason = AwayReason.Hospital, FromDay = new(2026, 9, 21) });
        await _agency.Agency.AddAsync(new AwayRow { LearnerId = _agency.Team.Jonah, Reason = AwayReason.Travel, FromDay = new(2026, 9, 22) });
        var marisol = await _agency.Team.CallerAsync(_agency.Team.Marisol);
        var odalys = await _agency.Team.CallerAsync(_agency.Team.Odalys);

        var day = await _agency.Agency.Get<ReadMyDay>().RunAsync(marisol, Scope.Of(marisol));
        var others = await _agency.Agency.Get<ReadMyDay>().RunAsync(odalys, Scope.Of(odalys));
        var audit = await _agency.Agency.Get<ReadAudit>().RunAsync(_agency.Agency.WholeAgency, _agency.Team.Period.Id, marisol.Today);

        // 21 September to 2 October: ten school days; Jonah's nine are too few.
        Assert.Equal([("Wren Belmares", 10)], day.ToMeet.Select(a => (a.Learner, a.SchoolDays)));
        Assert.Empty(others.ToMeet);
        Assert.Equal(["Wren Belmares"], audit!.Checks.Away.Select(a => a.Learner));
    }
}
