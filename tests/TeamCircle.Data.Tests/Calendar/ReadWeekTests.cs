using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>The week of 5 October 2026, a Monday, as each sees it.</summary>
public sealed class ReadWeekTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Monday = new(2026, 10, 5);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private ServiceRow _jonahs = null!;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"WEEK{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _jonahs = await _team.ServiceAsync(_team.Jonah, Discipline.Vision, _team.Odalys);
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private async Task<CalendarWeek?> WeekAsync(int person, int? learner = null, bool team = false, LocalDate? day = null)
    {
        var caller = await _team.CallerAsync(person);
        return await _agency.Get<ReadWeek>().RunAsync(caller, Scope.Of(caller), new(learner, team, day ?? Monday.PlusDays(2)));
    }

    [Fact]
    public async Task Week_runs_from_Monday_to_Sunday_and_holds_nothing_else()
    {
        foreach (var day in (int[])[-1, 0, 6, 7])
            await _team.VisitAsync(day: Monday.PlusDays(day));

        var week = await WeekAsync(_team.Odalys);

        Assert.Equal((Monday, Monday.PlusDays(6), 5), (week!.First, week.Last, week.Ordinary.Count));
        Assert.Equal([Monday, Monday.PlusDays(6)], week.Visits.Select(v => v.On));
    }

    [Fact]
    public async Task Week_starts_on_the_weekday_of_the_agency()
    {
        await using (var work = await _agency.Portal.OpenAsync(_agency.WholeAgency, System.Data.IsolationLevel.ReadCommitted))
        {
            (await work.Db.Agencies.SingleAsync()).WeekStart = IsoDayOfWeek.Sunday;
            await work.Db.SaveChangesAsync();
            await work.CommitAsync();
        }

        Assert.Equal(Monday.PlusDays(-1), (await WeekAsync(_team.Odalys, day: Monday))!.First);
        Assert.Equal(Monday.PlusDays(6), (await WeekAsync(_team.Odalys, day: Monday.PlusDays(6)))!.First);
    }

    [Fact]
    public async Task Own_week_is_mine_alone_and_a_learners_week_everybodys_who_comes()
    {
        await _team.VisitAsync(day: Monday);
        await _team.VisitAsync(_jonahs, day: Monday, start: new(11, 0));
        await _team.VisitAsync(await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Bram), _team.Bram, Monday, new(8, 0));

        Assert.Equal(["Wren Belmares", "Jonah Tarrow"], (await WeekAsync(_team.Odalys))!.Visits.Select(v => v.Learner));
        Assert.Equal(["Bram Nakamura", "Odalys Ferreira"], (await WeekAsync(_team.Odalys, _team.Wren))!.Visits.Select(v => v.Provider));
        Assert.Equal(3, (await WeekAsync(_team.Bram, team: true))!.Visits.Count);
    }

    [Fact]
    public async Task Learner_of_another_team_has_no_week()
    {
        await _team.VisitAsync(day: Monday);

        Assert.Null(await WeekAsync(_team.Priya, _team.Wren));
        Assert.Null(await WeekAsync(_team.Priya, _team.Wren, team: true));
        Assert.Null(await WeekAsync(_team.Ines, _team.Wren));
        Assert.Empty((await WeekAsync(_team.Priya, team: true))!.Visits);
    }

    [Fact]
    public async Task Teams_week_says_of_visits_to_others_only_that_a_colleague_is_taken_and_where()
    {
        var place = await _agency.AddAsync(new PlaceRow { Code = "E1", Name = "East side", Kind = Place.Home });
        await _agency.AddAsync(new LearnerPlaceRow { LearnerId = _team.Jonah, Kind = Place.Home, PlaceId = place.Id });
        await _team.VisitAsync(day: Monday, start: new(9, 0));
        await _team.VisitAsync(_jonahs, day: Monday, start: new(11, 0), minutes: 30);
        await _team.VisitAsync(_jonahs, day: Monday, start: new(13, 0), with: v => v.State = VisitState.CalledOff);

        var week = await WeekAsync(_team.Marisol, _team.Wren, team: true);

        Assert.Equal(["Wren Belmares"], week!.Visits.Select(v => v.Learner));
        Assert.Equal([new BusySpan(Monday, new(11, 0), new(11, 30), _team.Odalys, "Odalys Ferreira", "E1")], week.Busy);
        Assert.Empty((await WeekAsync(_team.Odalys, _team.Wren, team: true))!.Busy); // who reaches both learners sees both visits
    }

    [Fact]
    public async Task Colleague_is_taken_at_the_agencys_own_time_over_a_clock_change()
    {
        // Clocks go back on Sunday 1 November 2026.
        await _team.VisitAsync(_jonahs, day: new(2026, 10, 30), start: new(11, 0));
        await _team.VisitAsync(_jonahs, day: new(2026, 11, 1), start: new(11, 0));

        var busy = (await WeekAsync(_team.Marisol, _team.Wren, team: true, day: new(2026, 10, 30)))!.Busy;

        Assert.Equal([(new(2026, 10, 30), new(11, 0)), (new(2026, 11, 1), new LocalTime(11, 0))], busy.Select(b => (b.On, b.Start)));
    }

    [Fact]
    public async Task Visit_that_a_time_away_called_off_is_not_possible_and_the_days_say_so()
    {
        var away = await _agency.AddAsync(new AwayRow { LearnerId = _team.Wren, Reason = AwayReason.Hospital, FromDay = Monday.PlusDays(1), UntilDay = null });
        await _team.VisitAsync(day: Monday, with: v => (v.State, v.CalledOff) = (VisitState.CalledOff, Reason.NobodyHome));
        await _team.VisitAsync(day: Monday.PlusDays(1), with: v => (v.State, v.CalledOff, v.AwayId) = (VisitState.CalledOff, Reason.LearnerInHospital, away.Id));

        var week = await WeekAsync(_team.Marisol, _team.Wren);

        Assert.Equal([(false, Reason.NobodyHome), (true, Reason.LearnerInHospital)], week!.Visits.Select(v => (v.IsNotPossible, v.Reason!.Value)));
        Assert.Null(week.AwayOn(Monday));
        Assert.Equal(AwayReason.Hospital, week.AwayOn(Monday.PlusDays(5))!.Reason);
    }

    [Fact]
    public async Task Week_takes_few_statements_however_many_visits_it_has()
    {
        foreach (var day in Enumerable.Range(0, 5))
            foreach (var hour in Enumerable.Range(8, 6))
                await _team.VisitAsync(day: Monday.PlusDays(day), start: new(hour, 0));
        var caller = await _team.CallerAsync(_team.Marisol);

        var count = await Statements.CountAsync(() => _agency.Get<ReadWeek>().RunAsync(caller, Scope.Of(caller), new(_team.Wren, true, Monday)));

        Assert.InRange(count, 4, 10);
    }
}

/// <summary>How many statements some work sends to the database; what other tests send meanwhile is not counted.</summary>
internal static class Statements
{
    public static async Task<int> CountAsync(Func<Task> work)
    {
        var sent = new ConcurrentBag<ActivityTraceId>();
        using var listener = new ActivityListener
        {
            ShouldListenTo = source => source.Name == "Npgsql",
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            ActivityStarted = activity => sent.Add(activity.TraceId),
        };
        ActivitySource.AddActivityListener(listener);
        using var own = new Activity("counted").SetIdFormat(ActivityIdFormat.W3C).Start();
        await work();
        return sent.Count(id => id == own.TraceId);
    }
}
