using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

/// <summary>A plan is amended with dates, never overwritten.</summary>
public sealed class AmendServiceTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly LocalDate Day = new(2026, 11, 2);

    private static async Task<Outcome<AmendService.Saved>> AmendAsync(PlanAgency agency, int service, int version, Action<AmendService.Input>? change = null, int? by = null)
    {
        var input = new AmendService.Input
        {
            Learner = agency.Wren,
            Service = service,
            Version = version,
            FromDay = Day,
            Amount = new() { Quantity = 90, Sessions = 3, EveryUnit = EveryUnit.Week, PlanWords = "3 x 30 minutes each week", Reason = "Annual review" },
        };
        change?.Invoke(input);
        return await agency.Agency.Get<AmendService>().RunAsync(await agency.CallerAsync(by ?? agency.Marisol), Guid.CreateVersion7(), input);
    }

    [Fact]
    public async Task Another_amount_of_the_same_window_is_a_new_version_of_the_same_line()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD1");
        var id = await agency.AddServiceAsync();

        Assert.Equal(new(id, 0), PlanAgency.Must(await AmendAsync(agency, id, 1)));

        var service = await agency.ServiceAsync(id);
        Assert.Equal([(PlanAgency.PlanStart, 60), (Day, 90)], service.Amounts.Select(a => (a.FromDay, a.Quantity)));
        Assert.Equal(("2 x 30 minutes each week", "3 x 30 minutes each week"), (service.Amounts[0].PlanWords, service.Amounts[1].PlanWords));
        Assert.Equal(PlanAgency.YearEnd, service.ToDay);
    }

    [Fact]
    public async Task Another_kind_of_window_ends_the_line_and_goes_on_as_a_new_one_with_people_and_planned_visits()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD2");
        var id = await agency.AddServiceAsync();
        PlanAgency.Must(await agency.Agency.Get<AssignProvider>().RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Service = id, Person = agency.Odalys, FromDay = PlanAgency.PlanStart, ToDay = PlanAgency.YearEnd }));
        var before = await PlanVisitAsync(agency, id, Day.PlusDays(-3));
        var after = await PlanVisitAsync(agency, id, Day.PlusDays(4));

        var saved = PlanAgency.Must(await AmendAsync(agency, id, 1, input => (input.Amount.EveryUnit, input.Amount.Quantity) = (EveryUnit.Month, 240)));

        var (old, next) = (await agency.ServiceAsync(id), await agency.ServiceAsync(saved.Service));
        Assert.Equal((Day.PlusDays(-1), "Annual review"), (old.ToDay, old.EndReason));
        Assert.Equal((Day, PlanAgency.YearEnd, old.Code, EveryUnit.Month), (next.FromDay, next.ToDay, next.Continues, next.Every.Unit));
        Assert.Equal((agency.Odalys, Day), next.Assigned.Select(a => (a.PersonId, a.FromDay)).Single());
        var visits = await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.Visits.ToDictionaryAsync(v => v.Id, v => v.ServiceId));
        Assert.Equal((id, saved.Service, 1), (visits[before], visits[after], saved.VisitsMoved));
    }

    [Fact]
    public async Task The_second_of_two_who_amend_one_service_is_refused_and_told()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD3");
        var id = await agency.AddServiceAsync();
        PlanAgency.Must(await AmendAsync(agency, id, 1));

        var second = await AmendAsync(agency, id, 1, input => input.FromDay = new(2027, 1, 11));

        Assert.Equal("Version", Assert.Single(second.Problems).Field);
        Assert.Equal(2, (await agency.ServiceAsync(id)).Amounts.Count);
        PlanAgency.Must(await AmendAsync(agency, id, 2, input => input.FromDay = new(2027, 1, 11)));
    }

    [Fact]
    public async Task The_last_amendment_is_taken_back_with_a_reason_and_its_row_stays()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD4");
        var id = await agency.AddServiceAsync();
        PlanAgency.Must(await AmendAsync(agency, id, 1));
        async Task<Outcome<TakeBackAmendment.Saved>> TakeBackAsync(int version, string? reason) => await agency.Agency.Get<TakeBackAmendment>()
            .RunAsync(await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), new() { Learner = agency.Wren, Service = id, Version = version, Reason = reason });

        Assert.Equal("Reason", Assert.Single((await TakeBackAsync(2, " ")).Problems).Field);
        PlanAgency.Must(await TakeBackAsync(2, "Typed from the wrong page"));
        Assert.Single((await agency.ServiceAsync(id)).Amounts);
        Assert.NotEmpty((await TakeBackAsync(3, "Again")).Problems);
        Assert.Equal(2, await agency.Agency.Portal.ReadAsync(agency.Agency.WholeAgency, db => db.ServiceVersions.IgnoreQueryFilters().CountAsync()));

        PlanAgency.Must(await AmendAsync(agency, id, 3)); // the day is free again
    }

    [Fact]
    public async Task An_amendment_does_not_reach_into_a_closed_count()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD5");
        var id = await agency.AddServiceAsync();
        await agency.CloseAsync(new(2026, 10, 1));

        var inside = await AmendAsync(agency, id, 1, input => input.FromDay = new(2026, 10, 12));

        Assert.Contains("closed", Assert.Single(inside.Problems).Message, StringComparison.Ordinal);
        PlanAgency.Must(await AmendAsync(agency, id, 1));
    }

    [Fact]
    public async Task An_end_inside_a_closed_count_is_refused_and_one_after_it_is_not()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD6");
        var id = await agency.AddServiceAsync();
        await agency.CloseAsync(new(2026, 10, 1));
        async Task<Outcome<EndService.Saved>> EndAsync(LocalDate day) => await agency.Agency.Get<EndService>().RunAsync(
            await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(),
            new() { Learner = agency.Wren, Service = id, Version = 1, LastDay = day, Reason = "Moved away" });

        Assert.NotEmpty((await EndAsync(new(2026, 10, 15))).Problems);
        PlanAgency.Must(await EndAsync(new(2026, 10, 16)));
        Assert.Equal((new(2026, 10, 16), "Moved away"), await EndOfAsync(agency, id));
    }

    [Fact]
    public async Task Only_the_learners_case_manager_amends_and_others_find_nothing()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD7");
        var id = await agency.AddServiceAsync();
        var other = await agency.PersonAsync("Teodor Vance", Core.People.Role.CaseManager);

        foreach (var by in new[] { agency.Odalys, agency.Dele, agency.Director, other })
            Assert.Equal([Problem.NotFound], (await AmendAsync(agency, id, 1, by: by)).Problems);
        Assert.Equal([Problem.NotFound], (await AmendAsync(agency, id + 1000, 1)).Problems);
    }

    [Fact]
    public async Task A_service_without_visits_is_taken_back_and_one_with_visits_is_not()
    {
        await using var agency = await PlanAgency.CreateAsync(database, "AMD8");
        var (unused, used) = (await agency.AddServiceAsync(), await agency.AddServiceAsync());
        await PlanVisitAsync(agency, used, Day);
        async Task<Outcome<TakeBackService.Saved>> TakeBackAsync(int id) => await agency.Agency.Get<TakeBackService>().RunAsync(
            await agency.CallerAsync(agency.Marisol), Guid.CreateVersion7(), new() { Learner = agency.Wren, Service = id, Version = 1, Reason = "Entered twice" });

        PlanAgency.Must(await TakeBackAsync(unused));
        Assert.Null((await agency.PageAsync()).Service(unused));
        Assert.NotEmpty((await TakeBackAsync(used)).Problems);
        Assert.NotNull((await agency.PageAsync()).Service(used));
    }

    private static async Task<(LocalDate, string?)> EndOfAsync(PlanAgency agency, int id)
    {
        var service = await agency.ServiceAsync(id);
        return (service.ToDay, service.EndReason);
    }

    private static async Task<Guid> PlanVisitAsync(PlanAgency agency, int service, LocalDate day)
    {
        var start = Instant.FromUtc(day.Year, day.Month, day.Day, 17, 0);
        var visit = await agency.Agency.AddAsync(new VisitRow
        {
            Id = Guid.CreateVersion7(),
            LearnerId = agency.Wren,
            ServiceId = service,
            ProviderId = agency.Odalys,
            OnDay = day,
            StartTime = new(9, 0),
            Minutes = 30,
            Zone = "America/Los_Angeles",
            During = new(start, true, start + Duration.FromMinutes(30), false),
            State = VisitState.Planned,
            Place = Place.Home,
        });
        return visit.Id;
    }
}
