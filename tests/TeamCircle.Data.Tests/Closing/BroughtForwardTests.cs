using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Closing;

/// <summary>Wren's vision service owes 60 minutes a week from 17 August; her agency brought 45 minutes along by file. Today is 2 October.</summary>
public sealed class BroughtForwardTests(TestDatabase database) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static readonly LocalDate Brought = new(2026, 8, 16);
    private static int _agencies;
    private TestAgency _agency = null!;
    private TestTeam _team = null!;
    private int _debt;

    public async ValueTask InitializeAsync()
    {
        _agency = await TestAgency.CreateAsync(database, $"BROUGHT{Interlocked.Increment(ref _agencies)}");
        _team = await TestTeam.CreateAsync(_agency);
        _debt = (await _agency.AddAsync(new DebtRow { LearnerId = _team.Wren, ServiceId = _team.Vision.Id, OnDay = Brought, Since = Brought, Undecided = 45 })).Id;
    }

    public ValueTask DisposeAsync() => _agency.DisposeAsync();

    private DecideDebt.Input Decision(DecisionKind kind, int minutes, params int[] people) => new()
    {
        Learner = _team.Wren,
        Debt = _debt,
        Kind = kind,
        Amount = minutes,
        TookPart = people,
        ByDay = kind == DecisionKind.MakeUp ? new(2026, 12, 1) : null,
        Why = "We looked at the week together.",
    };

    private async Task<Outcome<DecideDebt.Decided>> DecideAsync(DecideDebt.Input input, int? person = null) =>
        await _agency.Get<DecideDebt>().RunAsync(await _team.CallerAsync(person ?? _team.Marisol), Guid.CreateVersion7(), input);

    private async Task<Outcome<Saved>> LogAsync(LogSession.Input input) =>
        await _agency.Get<LogSession>().RunAsync(await _team.CallerAsync(_team.Odalys), Guid.CreateVersion7(), input);

    private async Task<BroughtForwardPage> PageAsync() =>
        (await _agency.Get<ReadBroughtForward>().RunAsync(Scope.Of(await _team.CallerAsync(_team.Marisol)), _team.Wren))!;

    private async Task<Balance> BalanceAsync() => (await _agency.Get<ReadLedger>().ServiceAsync(
        Scope.Of(await _team.CallerAsync(_team.Marisol)), _team.Vision.Id, null, new(2026, 10, 2)))!.Lines[0].Working.Balance;

    private async Task<int> AwardAsync(int? service = null) => (await _agency.Get<AddAward>().RunAsync(await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), new()
    {
        Learner = _team.Wren,
        Source = AwardSource.Hearing,
        Paper = "Order of 3 September, page 4",
        Amount = 120,
        ServiceId = service ?? _team.Vision.Id,
        FromDay = new(2026, 9, 1),
    })).Value!.Award;

    [Fact]
    public async Task Make_up_after_it_pays_the_debt_and_no_window()
    {
        Assert.Empty((await DecideAsync(Decision(DecisionKind.MakeUp, 45, _team.Marisol))).Problems);
        var logged = await LogAsync(new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 22), Start = "9:00", End = "10:00", PaysOn = Brought });
        Assert.Empty(logged.Problems);

        var page = await PageAsync();
        var debt = Assert.Single(page.Debts);

        Assert.Equal((45, 0), (debt.Account.Standing.Paid.Minutes, debt.Account.Standing.Open.Minutes));
        var payment = Assert.Single(debt.Account.Steps, s => s.Payment is not null).Payment!;
        Assert.Equal(logged.Value!.Visit, page.VisitOf(debt, payment)!.Id);
        var balance = await BalanceAsync();
        Assert.Equal((15, 45), (balance.Minutes.Given, balance.BroughtForward.Paid.Minutes)); // the rest counts on its own date
    }

    [Fact]
    public async Task Decision_that_names_no_sessions_is_about_as_many_as_its_minutes_stand_for()
    {
        var twoAWeek = await _team.ServiceAsync(_team.Wren, Discipline.Vision, _team.Odalys, sessions: 2); // 60 minutes: sessions of 30
        var debt = await _agency.AddAsync(new DebtRow { LearnerId = _team.Wren, ServiceId = twoAWeek.Id, OnDay = Brought, Since = Brought, Undecided = 60, UndecidedSessions = 2 });

        Assert.Empty((await DecideAsync(Decision(DecisionKind.MakeUp, 45, _team.Marisol) with { Debt = debt.Id })).Problems);

        var decision = Assert.Single((await PageAsync()).Debts.Single(d => d.Row.Id == debt.Id).Decisions);
        Assert.Equal(2, decision.Sessions); // 45 / 30 = 1.5, rounded up
    }

    [Fact]
    public async Task What_no_visit_explains_is_not_dropped_by_one_person()
    {
        var dele = await _team.PersonAsync("Dele Okwarre", Role.Administrator, Relation.Team);

        Assert.Equal("TookPart", Assert.Single((await DecideAsync(Decision(DecisionKind.NotOwed, 45, _team.Marisol))).Problems).Field);
        Assert.Empty((await DecideAsync(Decision(DecisionKind.NotOwed, 45, _team.Marisol, dele))).Problems);

        var standing = Assert.Single((await PageAsync()).Debts).Account.Standing;
        Assert.Equal((45, 0), (standing.NotOwed.Minutes, standing.Open.Minutes));
        Assert.Equal(0, (await BalanceAsync()).BroughtForward.Open.Minutes);
    }

    [Fact]
    public async Task Decision_taken_back_leaves_it_open_as_before()
    {
        var decided = (await DecideAsync(Decision(DecisionKind.MakeUp, 45, _team.Marisol))).Value!;

        var back = await _agency.Get<TakeBackDebtDecision>().RunAsync(
            await _team.CallerAsync(_team.Marisol), Guid.CreateVersion7(), new() { Learner = _team.Wren, Decision = decided.Decision, Why = "Entered for the wrong week" });

        Assert.Empty(back.Problems);
        var debt = Assert.Single((await PageAsync()).Debts);
        Assert.Equal((45, 0), (debt.Account.Standing.Undecided.Minutes, debt.Account.Standing.MakeUp.Minutes));
        Assert.Equal("Entered for the wrong week", Assert.Single(debt.Decisions).TakenBackReason);
    }

    [Fact]
    public async Task Only_the_case_manager_decides_and_enters_awards()
    {
        Assert.Contains(Problem.NotFound, (await DecideAsync(Decision(DecisionKind.MakeUp, 45, _team.Odalys), _team.Odalys)).Problems);
        Assert.Contains(Problem.NotFound, (await _agency.Get<AddAward>().RunAsync(await _team.CallerAsync(_team.Ines), Guid.CreateVersion7(), new()
        {
            Learner = _team.Wren,
            Source = AwardSource.Team,
            Paper = "Ours",
            Amount = 60,
            ServiceId = _team.Vision.Id,
            FromDay = new(2026, 9, 1),
        })).Problems);
    }

    [Fact]
    public async Task Visit_for_an_award_counts_in_the_awards_balance_alone()
    {
        var award = await AwardAsync();

        Assert.Empty((await LogAsync(new() { Services = [_team.Vision.Id], OnDay = new(2026, 9, 22), Start = "9:00", End = "9:30", AwardId = award })).Problems);

        Assert.Equal(new AwardBalance(AwardUnit.Minutes, 120, 30, 0), Assert.Single((await PageAsync()).Awards).Balance);
        var balance = await BalanceAsync();
        Assert.Equal((0, 0, 45), (balance.Minutes.Given, balance.Outside, balance.BroughtForward.Open.Minutes));
    }

    [Fact]
    public async Task Award_pays_for_nothing_else_and_is_given_by_its_own_service_only()
    {
        var award = await AwardAsync();
        var motor = await _team.ServiceAsync(_team.Wren, Discipline.OccupationalTherapy, _team.Odalys);
        var visit = new LogSession.Input { OnDay = new(2026, 9, 23), Start = "9:00", End = "9:30", AwardId = award };

        Assert.Equal("PaysOn", Assert.Single((await LogAsync(visit with { Services = [_team.Vision.Id], PaysOn = Brought })).Problems).Field);
        Assert.Equal("AwardId", Assert.Single((await LogAsync(visit with { Services = [motor.Id] })).Problems).Field);
    }
}
