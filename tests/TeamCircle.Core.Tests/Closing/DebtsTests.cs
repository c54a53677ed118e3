using CsCheck;
using NodaTime;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Tests.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Closing;

/// <summary>What is brought forward when a period is sealed, and what pays it; worked by hand, and held to a recount in any world.</summary>
public sealed class DebtsTests
{
    private static readonly DateRange SecondPeriod = ALine.Days(10, 19, 12, 18);
    private static readonly LocalDate Missed = new(2026, 9, 23);

    /// <summary>Nine weeks of 60 minutes from 17 August; the week of 21 September was missed.</summary>
    private static ALine OneWeekMissed() => new ALine().GivenEveryWeek(new(2026, 8, 18), 5).GivenEveryWeek(new(2026, 9, 29), 3);

    [Fact]
    public void What_lacks_when_a_period_is_sealed_is_brought_forward_as_people_decided()
    {
        // 60 missed: 30 to make up by 1 December, 10 before a meeting, nobody decided about 20
        var line = OneWeekMissed().Decided(9, 22, 30, DecisionKind.MakeUp).Decided(9, 22, 10, DecisionKind.Meeting);

        var debt = Assert.Single(Debts.Of(line.WorkOut(), [new LocalDate(2026, 12, 1), null]));

        Assert.Equal(new LocalDate(2026, 9, 25), debt.Day);
        Assert.Equal((30, 10, 20), (debt.MakeUp.Minutes, debt.Meeting.Minutes, debt.Undecided.Minutes));
        Assert.Equal(new LocalDate(2026, 12, 1), debt.By);
    }

    [Fact]
    public void What_was_decided_not_owed_is_not_brought_forward()
    {
        var line = OneWeekMissed().Decided(9, 22, 45, DecisionKind.NotOwed);

        Assert.Equal(15, Assert.Single(Debts.Of(line.WorkOut(), [null])).Undecided.Minutes);
    }

    [Fact]
    public void What_was_made_up_before_the_closing_is_given_and_brought_forward_no_more()
    {
        // closed on 28 October; 25 of the 60 made up on the 21st, after the period
        var line = (OneWeekMissed() with { AsOf = new(2026, 10, 28) }).Decided(9, 22, 60, DecisionKind.MakeUp).Given(10, 21, 25, Missed);
        var working = line.WorkOut();

        var debt = Assert.Single(Debts.Of(working, [null]));

        Assert.Equal((35, 25), (debt.MakeUp.Minutes, debt.PaidBefore.Minutes));
        Assert.Equal((35, 25), (working.Balance.Minutes.Lack, working.Balance.MadeUpSince));
    }

    [Fact]
    public void Sessions_are_brought_forward_beside_minutes()
    {
        // 2 x 30 a week; one visit of 60 keeps the minutes and lacks a session
        var promise = new Promise(new(EveryUnit.Week, 1), ALine.Year, new PromiseVersion(ALine.Year.First, 60, 2));
        var line = new ALine { Promise = promise, Period = ALine.Days(8, 17, 8, 21), AsOf = new(2026, 8, 24) }.Given(8, 18, 60);

        var debt = Assert.Single(Debts.Of(line.WorkOut(), []));

        Assert.Equal(new DebtAmount(0, 1), debt.Undecided);
    }

    [Fact]
    public void Surplus_that_carries_takes_away_what_was_to_be_made_up_first()
    {
        // two weeks missed, the first undecided, the second to be made up; 75 beyond the plan elsewhere
        var carry = new Policies(Policy.Default with { Surplus = Surplus.CarryWithinPeriod });
        var line = (new ALine { Policies = carry }.GivenEveryWeek(new(2026, 8, 18), 4).GivenEveryWeek(new(2026, 9, 29), 3))
            .Given(8, 20, 75).Decided(9, 22, 60, DecisionKind.MakeUp);
        var working = line.WorkOut();

        var debts = Debts.Of(working, [null]);

        var debt = Assert.Single(debts);
        Assert.Equal((new LocalDate(2026, 9, 18), 45), (debt.Day, debt.Undecided.Minutes));
        Assert.Equal(45, working.Balance.Minutes.Lack);
    }

    [Theory]
    [InlineData(20, 20, 0)] // pays 20 of 45
    [InlineData(45, 45, 0)]
    [InlineData(60, 45, 15)] // the rest counts on its own date
    public void Make_up_pays_the_debt_that_it_names_and_the_rest_counts_on_its_own_date(int minutes, int paid, int rest)
    {
        var line = (OneWeekMissed() with { Period = SecondPeriod, AsOf = new(2026, 11, 9), Debts = [Debt(45)] }).Given(11, 3, minutes, Missed);

        var working = line.WorkOut();

        var entry = working.GivenEntries.Last();
        Assert.Equal((paid, rest), (entry.Parts.Paid, entry.Parts.Counted));
        Assert.Equal((45 - paid, paid), (working.Balance.BroughtForward.Open.Minutes, working.Balance.BroughtForward.Paid.Minutes));
        Assert.Equal(rest, working.Balance.Minutes.Given);
        Assert.Equal([new DebtPayment(new(2026, 11, 3), new(paid, 0), 8)], DebtAccount.PaymentsOf(working, 0, default));
    }

    [Fact]
    public void Make_up_before_the_period_ended_pays_its_window_and_not_the_debt()
    {
        var line = (OneWeekMissed() with { Debts = [Debt(45)] }).Given(10, 14, 15, Missed);

        var working = line.WorkOut();

        Assert.Null(working.GivenEntries.Last().Parts.Debt);
        Assert.Equal(45, working.Balance.Minutes.Lack);
        Assert.True(working.Balance.BroughtForward.IsNothing); // what this period itself left open stands in its own figures
    }

    [Fact]
    public void Debt_brought_by_file_is_paid_by_make_ups_that_name_its_day_though_no_window_is_there()
    {
        var day = ALine.Start.PlusDays(-1);
        var debt = new Debt(Day.Of(day), Day.Of(day), new(40, 0), default, default) { IsFromFile = true };
        var line = (new ALine { Debts = [debt], AsOf = new(2026, 9, 1) }).Given(8, 19, 30, day).Given(8, 26, 30, day);

        var working = line.WorkOut();

        Assert.Equal(new DebtSums(default, new(40, 0)), working.Balance.BroughtForward);
        Assert.Equal([0, 20], working.GivenEntries.Select(e => e.Parts.Counted));
        Assert.Equal(0, working.Balance.ToCheck.NamesNoWindow);
    }

    [Fact]
    public void Planned_make_up_would_pay_the_debt_and_pays_nothing_yet()
    {
        var line = (OneWeekMissed() with { Period = SecondPeriod, AsOf = new(2026, 11, 9), Debts = [Debt(45)] }).PlannedVisit(11, 17, 60, Missed);

        var working = line.WorkOut();

        Assert.Equal((45, 15), (working.PlannedEntries.Single().Parts.Paid, working.PlannedEntries.Single().Parts.Counted));
        Assert.Equal(new DebtSums(new(45, 0), default), working.Balance.BroughtForward);
    }

    [Fact]
    public void Account_says_what_is_open_after_each_step()
    {
        // 60 undecided; 30 made up on 20 October; then 30 more by 1 December; 10 of them made up; the rest decided not owed
        var account = DebtAccount.Of(
            new(Missed, default, default, new(60, 0), null, default),
            [new(new(2026, 10, 20), new(30, 0)), new(new(2026, 11, 10), new(10, 0))],
            [
                new(new(2026, 10, 30), new(30, 0), DecisionKind.MakeUp, new(2026, 12, 1)),
                new(new(2026, 12, 2), new(50, 0), DecisionKind.NotOwed, null),
            ]);

        Assert.Equal([(30, 30), (30, 30), (10, 20), (20, 0)], account.Steps.Select(s => (s.Taken.Minutes, s.OpenAfter.Minutes)));
        Assert.Equal((40, 20, 0), (account.Standing.Paid.Minutes, account.Standing.NotOwed.Minutes, account.Standing.Open.Minutes));
        Assert.Null(account.Standing.By);
    }

    [Fact]
    public void What_was_decided_not_owed_and_yet_made_up_is_made_up()
    {
        var account = DebtAccount.Of(
            new(Missed, default, new(60, 1), default, null, default),
            [new(new(2026, 11, 10), new(45, 1))], [new(new(2026, 11, 2), new(60, 1), DecisionKind.NotOwed, null)]);

        Assert.Equal((new DebtAmount(45, 1), new DebtAmount(15, 0)), (account.Standing.Paid, account.Standing.NotOwed));
    }

    [Fact]
    public void Award_has_a_balance_of_its_own()
    {
        AwardVisit[] given = [new(new(2026, 10, 6), 30), new(new(2026, 10, 13), 0), new(new(2026, 11, 3), 45)];
        AwardVisit[] planned = [new(new(2026, 10, 20), 30), new(new(2026, 10, 15), 30)];

        var minutes = AwardBalance.Of(AwardUnit.Minutes, 120, given, planned, new(2026, 10, 16));
        var sessions = AwardBalance.Of(AwardUnit.Sessions, 2, given, planned, new(2026, 11, 30));

        Assert.Equal((30, 30, 90, 60), (minutes.Given, minutes.Planned, minutes.Left, minutes.StillToPlan));
        Assert.Equal((2, 0, 0), (sessions.Given, sessions.Planned, sessions.Left));
    }

    [Fact]
    public void Debts_of_a_sealed_line_come_to_what_it_lacks_in_any_world() => Worlds.Any.Sample(world =>
    {
        var working = (world with { AsOf = world.Period.End.PlusDays(20) }).WorkOut();
        var debts = Debts.Of(working, [.. world.Decisions.Select(_ => (LocalDate?)null)]);

        Assert.Equal(working.Balance.Minutes.Lack, debts.Sum(d => d.Amount.Minutes));
        Assert.Equal(working.Balance.Sessions.Lack, debts.Sum(d => d.Amount.Sessions));
        Assert.Equal(working.Balance.Minutes.Undecided, debts.Sum(d => d.Undecided.Minutes));
        Assert.Equal(working.Balance.Sessions.Undecided, debts.Sum(d => d.Undecided.Sessions));
        Assert.Equal(working.Balance.MadeUpSince, working.GivenEntries.Where(e => e.Entry.Day > working.At.Period.Last
            && working.Closing.Any(w => w.Index == e.Parts.Pays)).Sum(e => e.Parts.Paid));
    }, iter: 1000, print: LedgerPropertyTests.Print);

    /// <summary>Seals the first period, goes on to the end of the second, and counts every minute again in plain steps.</summary>
    [Fact]
    public void Payments_equal_a_recount_in_any_world() => Gen.Select(Worlds.Any, Gen.Int[0, 3]).Sample((world, day) =>
    {
        var last = Day.Of(world.Period.End);
        var sealing = (world with { AsOf = world.Period.End.PlusDays(10) }).WorkOut();
        var opened = Debts.Of(sealing, [.. world.Decisions.Select(_ => (LocalDate?)null)]);
        Debt[] debts = [.. opened.Select(d => new Debt(Day.Of(d.Day), last, d.Amount.Plus(d.PaidBefore), d.PaidBefore, default))];
        var later = (world with { AsOf = world.Period.End.PlusDays(150 + day), Period = (world.Period.End.PlusDays(1), world.Period.End.PlusDays(140)) }).Case() with { BroughtForward = debts };
        var working = later.WorkOut();

        var expected = Recount(working, debts, last);
        var paid = debts.Select((_, i) => working.GivenEntries.Where(e => e.Parts.Debt == i).Sum(e => e.Parts.Paid)).ToArray();
        Assert.Equal(expected, paid);
        for (var i = 0; i < debts.Length; i++)
            Assert.InRange(paid[i], 0, debts[i].Most.Minutes);
        Assert.All(working.GivenEntries.Where(e => e.Fate is not (Fate.AfterAsOf or Fate.NamesNoWindow)),
            e => Assert.Equal(e.Entry.Amount, e.Parts.Counted + e.Parts.Paid + e.Parts.Outside));
        Assert.Equal(debts.Sum(d => d.Opened.Minutes), working.Balance.BroughtForward.Open.Minutes + working.Balance.BroughtForward.Paid.Minutes);
        // nothing counts twice: without the debts' payments each window outside the sealed ones has what it had
        Assert.Equal(working.Balance.Minutes.Given, working.Closing.Sum(w => w.Minutes.Given));
    }, iter: 1000, print: w => LedgerPropertyTests.Print(w.Item1));

    /// <summary>By date, and as listed within a day: each make-up pays what is left of the debt of the window that it names.</summary>
    private static int[] Recount(Working working, Debt[] debts, int last)
    {
        var paid = new int[debts.Length];
        foreach (var entry in working.GivenEntries.Where(e => e.Entry.Pays != Day.None && e.Entry.Day > last && e.Entry.Day <= working.At.AsOf)
            .OrderBy(e => e.Entry.Day).ThenBy(e => e.Index))
        {
            for (var i = 0; i < debts.Length; i++)
            {
                var window = working.Windows.All.ToArray().Single(w => w.IsActive && w.Closes == debts[i].Day);
                if (window.Days.Holds(entry.Entry.Pays))
                    paid[i] += Math.Min(entry.Entry.Amount, debts[i].Most.Minutes - paid[i]);
            }
        }
        return paid;
    }

    private static Debt Debt(int minutes) => new(Day.Of(new(2026, 9, 25)), ALine.FirstPeriod.Last, new(minutes, 0), default, default);
}
