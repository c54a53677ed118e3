using NodaTime;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

/// <summary>An agency with an administrator, a director, a case manager and two providers, and whatever plans they write; today is 2 October 2026.</summary>
internal sealed class PlanAgency : IAsyncDisposable
{
    public static readonly LocalDate PlanStart = new(2026, 9, 14), PlanEnd = new(2027, 9, 13), YearEnd = new(2027, 5, 28);

    private readonly TestDatabase _database;

    private PlanAgency(TestAgency agency, TestDatabase database) => (Agency, _database) = (agency, database);

    public TestAgency Agency { get; }
    public int Dele { get; private set; }
    public int Director { get; private set; }
    public int Marisol { get; private set; }
    public int Odalys { get; private set; }
    public int Bram { get; private set; }
    public int Wren { get; private set; }
    public int Plan { get; private set; }

    public static async Task<PlanAgency> CreateAsync(TestDatabase database, string code)
    {
        var made = new PlanAgency(await TestAgency.CreateAsync(database, code), database);
        var agency = made.Agency;
        await agency.AddAsync(new TermRow { Name = "Year", FirstDay = new(2026, 8, 17), LastDay = YearEnd });
        await agency.AddAsync(new PeriodRow { Name = "Period 1", StartDay = new(2026, 8, 17), EndDay = new(2026, 10, 16) });
        await agency.AddAsync(new PeriodRow { Name = "Period 2", StartDay = new(2026, 10, 19), EndDay = new(2026, 12, 18) });
        made.Dele = await made.PersonAsync("Dele Okwarre", Role.Administrator);
        made.Director = await made.PersonAsync("Anselm Brigadier", Role.Director);
        made.Marisol = await made.PersonAsync("Marisol Quenby", Role.CaseManager);
        made.Odalys = await made.PersonAsync("Odalys Ferreira", Role.Provider);
        made.Bram = await made.PersonAsync("Bram Nakamura", Role.Provider);
        var added = await agency.Get<AddLearner>().RunAsync(await made.CallerAsync(made.Marisol), Guid.CreateVersion7(),
            new() { Code = "WREN", Name = "Wren Belmares", MostMinutesADay = 120, StartDay = PlanStart, EndDay = PlanEnd });
        made.Wren = Must(added).Learner;
        made.Plan = (await made.PageAsync()).Plans.Single().Id;
        return made;
    }

    public async Task<int> PersonAsync(string name, Role role)
    {
        var person = await Agency.AddAsync(new PersonRow { Email = $"{name.Split(' ')[0].ToLowerInvariant()}@tallowfern.example", Name = name });
        await Agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = role, FromDay = new(2026, 8, 1) });
        return person.Id;
    }

    public async Task<Caller> CallerAsync(int person) => (await Agency.CallerAsync(person))!;

    public async Task<PlanPage> PageAsync() => (await Agency.Get<ReadPlan>().RunAsync(Agency.WholeAgency, Wren))!;

    public async Task<ServiceInPlan> ServiceAsync(int id) => (await PageAsync()).Service(id)!;

    public async Task<GoalInPlan> GoalAsync(int id) => (await PageAsync()).Goal(id)!;

    /// <summary>Two sessions of 30 minutes a week, from the plan's first day to the end of the school year.</summary>
    public AddService.Input NewService() => new()
    {
        Learner = Wren,
        Plan = Plan,
        Discipline = Discipline.Vision,
        FromDay = PlanStart,
        ToDay = YearEnd,
        Amount = new() { Quantity = 60, Sessions = 2, EveryUnit = EveryUnit.Week, PlanWords = "2 x 30 minutes each week", PlanPage = "7" },
    };

    public async Task<int> AddServiceAsync(AddService.Input? input = null) =>
        Must(await Agency.Get<AddService>().RunAsync(await CallerAsync(Marisol), Guid.CreateVersion7(), input ?? NewService())).Service;

    public AddGoal.Input NewGoal() => new()
    {
        Learner = Wren,
        Plan = Plan,
        FromDay = PlanStart,
        ToDay = YearEnd,
        Owners = [Odalys],
        Goal = new() { Area = "Switch use", Statement = "Presses the switch to go on.", Target = 80, Objectives = [new() { Statement = "With help" }, new() { Statement = "After a pause" }] },
        Probes = new() { Probes = 1, EveryUnit = EveryUnit.Week, ByEach = true },
    };

    public async Task<int> AddGoalAsync() =>
        Must(await Agency.Get<AddGoal>().RunAsync(await CallerAsync(Marisol), Guid.CreateVersion7(), NewGoal())).Goal;

    /// <summary>Closes the learner's count of the reporting period that holds a day, as the database's owner.</summary>
    public async Task CloseAsync(LocalDate day)
    {
        await using var connection = new NpgsqlConnection(_database.ConnectionString());
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(
            """
            with said as materialized (select set_config('app.person', ($3::int)::text, true), set_config('app.ground', 'a test', true))
            insert into portal.learner_periods select agency_id, $2, id, now(), $3 from portal.periods, said
            where agency_id = $1 and live and $4 between start_day and end_day
            on conflict (agency_id, learner_id, period_id) do update set closed_at = now(), closed_by = $3
            """, connection)
        {
            Parameters = { new() { Value = Agency.Id }, new() { Value = Wren }, new() { Value = Marisol }, new() { Value = day.ToDateOnly() } },
        };
        Assert.Equal(1, await command.ExecuteNonQueryAsync());
    }

    public static T Must<T>(Outcome<T> outcome) where T : class
    {
        Assert.Empty(outcome.Problems);
        return outcome.Value!;
    }

    public ValueTask DisposeAsync() => Agency.DisposeAsync();
}
