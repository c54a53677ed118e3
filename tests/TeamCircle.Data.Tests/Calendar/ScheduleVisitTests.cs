using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>One visit, and everything that may stand against it.</summary>
public sealed class ScheduleVisitTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Tuesday = new(2026, 10, 6);
    private CalendarAgency _agency = null!;

    public async ValueTask InitializeAsync() => _agency = await CalendarAgency.CreateAsync(database);

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private ScheduleVisit.Input Visit => new()
    {
        Learner = _agency.Team.Wren,
        ServiceId = _agency.Team.Vision.Id,
        OnDay = Tuesday,
        Start = new(9, 0),
        Minutes = 45,
    };

    private Task<Outcome<ScheduleVisit.Saved>> TryAsync(ScheduleVisit.Input? input = null, int? by = null) =>
        _agency.RunAsync<ScheduleVisit, ScheduleVisit.Saved>(by ?? _agency.Team.Odalys, (o, c, id) => o.RunAsync(c, id, input ?? Visit));

    private async Task<string> RefusedAsync(ScheduleVisit.Input? input = null, int? by = null) =>
        string.Join(" / ", (await TryAsync(input, by)).Problems.Select(p => $"{p.Field}: {p.Message}"));

    private Task<int> CountAsync() => _agency.Agency.Portal.ReadAsync(
        _agency.Agency.WholeAgency, db => db.Visits.CountAsync(v => v.AgencyId == _agency.Agency.Id && v.OnDay == Tuesday && v.Live));

    [Fact]
    public async Task Fifty_people_at_once_make_one_visit_and_the_others_are_told_with_whom_it_clashes()
    {
        var caller = await _agency.Team.CallerAsync(_agency.Team.Odalys);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Task.Run(() => _agency.Agency.Get<ScheduleVisit>().RunAsync(caller, Guid.CreateVersion7(), Visit))));

        Assert.Single(outcomes, o => o.Value is not null);
        Assert.Equal(1, await CountAsync());
        Assert.All(outcomes.Where(o => o.Value is null), o => Assert.Contains(o.Problems, p => p.Message == "Odalys Ferreira is taken from 9:00 to 9:45 am."));
    }

    [Fact]
    public async Task Same_form_sent_twice_makes_one_visit()
    {
        var (caller, operation) = (await _agency.Team.CallerAsync(_agency.Team.Odalys), Guid.CreateVersion7());

        var first = await _agency.Agency.Get<ScheduleVisit>().RunAsync(caller, operation, Visit);
        var again = await _agency.Agency.Get<ScheduleVisit>().RunAsync(caller, operation, Visit);

        Assert.Equal(first.Value, again.Value);
        Assert.Equal(1, await CountAsync());
    }

    [Fact]
    public async Task Clash_with_a_learner_out_of_reach_says_when_and_not_with_whom()
    {
        var sefa = await _agency.Agency.AddAsync(new LearnerRow { Code = "SEFA", Name = "Sefa Lautele", MostMinutesADay = 60 });
        var plan = await _agency.Agency.AddAsync(new PlanRow { LearnerId = sefa.Id, StartDay = new(2026, 8, 17), EndDay = new(2027, 5, 6) });
        var service = await _agency.Agency.AddAsync(new ServiceRow
        {
            LearnerId = sefa.Id,
            PlanId = plan.Id,
            Code = "SEFA-1",
            EveryUnit = Core.Time.EveryUnit.Week,
            FromDay = plan.StartDay,
            ToDay = plan.EndDay,
        });
        await _agency.Team.VisitAsync(service, _agency.Team.Odalys, Tuesday, new(9, 30), 30);

        Assert.Equal("Start: Odalys Ferreira is taken from 9:30 to 10:00 am.", await RefusedAsync(Visit with { ProviderId = _agency.Team.Odalys }, _agency.Team.Marisol));
    }

    [Fact]
    public async Task Group_session_and_co_treatment_share_their_time()
    {
        var jonahs = await _agency.Team.ServiceAsync(_agency.Team.Jonah, Discipline.Vision, _agency.Team.Odalys);
        var hands = await _agency.Team.ServiceAsync(_agency.Team.Wren, Discipline.OccupationalTherapy, _agency.Team.Bram, CoTreatment.Full);
        CalendarAgency.Value(await TryAsync(Visit with { Format = SessionFormat.Group }));

        var mate = CalendarAgency.Value(await TryAsync(Visit with { Learner = _agency.Team.Jonah, ServiceId = jonahs.Id, Format = SessionFormat.Group }));
        var together = CalendarAgency.Value(await TryAsync(Visit with { ServiceId = hands.Id, PartnerId = _agency.Team.Odalys, Confirmed = true }, _agency.Team.Bram));

        var first = await _agency.Agency.Portal.ReadAsync(_agency.Agency.WholeAgency, db => db.Visits.SingleAsync(v => v.AgencyId == _agency.Agency.Id && v.OnDay == Tuesday && v.ServiceId == _agency.Team.Vision.Id));
        Assert.Equal(first.GroupNo, (await _agency.VisitAsync(mate.Visit)).GroupNo);
        Assert.Equal(first.TogetherNo, (await _agency.VisitAsync(together.Visit)).TogetherNo);
    }

    [Fact]
    public async Task Closed_and_full_days_are_confirmed_by_a_tick()
    {
        await _agency.CloseAsync(10, 6);
        Assert.Equal("Confirmed: There is no school that day: Staff day. / Confirmed: The learner would have 125 minutes that day, more than the 120 that the team set as the most.",
            await RefusedAsync(Visit with { Minutes = 125 }));

        CalendarAgency.Value(await TryAsync(Visit with { Minutes = 125, Confirmed = true }));
    }

    [Fact]
    public async Task Past_days_days_outside_the_service_and_nonsense_are_refused()
    {
        Assert.StartsWith("OnDay: That day is past.", await RefusedAsync(Visit with { OnDay = new(2026, 10, 1) }), StringComparison.Ordinal);
        Assert.Equal("OnDay: The day lies outside the dates of the service.", await RefusedAsync(Visit with { OnDay = new(2027, 5, 11) }));
        Assert.Contains("Minutes: A visit ends on the day on which it begins.", await RefusedAsync(Visit with { Start = new(23, 30) }), StringComparison.Ordinal);
        Assert.Contains("ServiceId: Choose the service.", await RefusedAsync(Visit with { ServiceId = 0, Start = null }), StringComparison.Ordinal);
        Assert.Contains("PaysOn: Nothing of this service was owed", await RefusedAsync(Visit with { PaysOn = new(2027, 7, 1) }), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Looking_for_clashes_writes_nothing()
    {
        await _agency.Team.VisitAsync(day: Tuesday);

        var clashes = await _agency.Agency.Get<ScheduleVisit>().ClashesAsync(await _agency.Team.CallerAsync(_agency.Team.Odalys), Visit);

        Assert.Equal([ClashKind.PersonTwice, ClashKind.LearnerTwice], clashes.Select(c => c.Kind));
        Assert.Equal(1, await CountAsync());
    }
}
