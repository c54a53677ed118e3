using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class LedgerTests
{
    [Fact]
    public void Provider_is_judged_over_the_windows_that_closed_while_named()
    {
        // the first of two providers gave every week until she left after 18 September; then nobody came
        var line = new ALine().GivenEveryWeek(new(2026, 8, 18), 5);

        var first = line.WorkOut(ALine.Days(8, 17, 9, 18));
        var second = line.WorkOut(ALine.Days(9, 19, 12, 31));

        Assert.Equal((5, 300, Status.Met), (first.Closing.Count, first.Balance.Minutes.Due, first.Balance.Status));
        Assert.Equal((4, 240, Status.NotMet), (second.Closing.Count, second.Balance.Minutes.Lack, second.Balance.Status));
        Assert.Equal(Status.NotMet, line.WorkOut().Balance.Status);
    }

    [Fact]
    public void Provider_named_in_two_ranges_has_the_windows_of_both()
    {
        var line = new ALine();

        var named = line.WorkOut(ALine.Days(8, 17, 8, 28), ALine.Days(10, 12, 10, 16));

        Assert.Equal([0, 1, 8], named.Closing.Select(w => w.Index));
    }

    [Fact]
    public void Open_window_is_shown_for_the_person_named_on_the_last_day_that_counts()
    {
        var line = new ALine
        {
            Promise = new(new(EveryUnit.PlanYear, 1), ALine.Year, new PromiseVersion(ALine.Year.First, 1080)),
            AsOf = new(2026, 10, 5),
        };

        Assert.Empty(line.WorkOut(ALine.Days(8, 17, 9, 30)).Open);
        Assert.Single(line.WorkOut(ALine.Days(10, 1, 12, 31)).Open);
    }

    [Fact]
    public void Wording_that_cannot_be_judged_owes_nothing_and_is_never_met()
    {
        var line = new ALine();
        var worded = line with { Promise = line.Promise with { Wording = Wording.UpTo } };

        var balance = worded.GivenEveryWeek(new(2026, 8, 18), 9).WorkOut().Balance;

        Assert.Equal((Status.CannotJudge, 0, 540), (balance.Status, balance.Minutes.Owed, balance.Minutes.Given));
    }

    [Theory]
    [InlineData(29, Status.CannotFit)]
    [InlineData(30, Status.NotPlanned)]
    public void Each_session_short_takes_its_length_of_space(int dailyLimit, Status status)
    {
        // one visit gave all 120 minutes of the month; three sessions of 30 are short, and three school days are left
        var line = new ALine
        {
            Promise = new(new(EveryUnit.Month, 1), ALine.Days(9, 1, 9, 30), new PromiseVersion(Day.Of(new(2026, 9, 1)), 120, 4)),
            AsOf = new(2026, 9, 28),
            DailyLimit = dailyLimit,
        };

        var balance = line.Given(9, 3, 120).WorkOut().Balance;

        Assert.Equal((status, WorseUnit.Sessions, 3), (balance.Status, balance.Worse, balance.Sessions.ShortAsPlanned));
        Assert.Equal(3 * dailyLimit, balance.SpaceLeft);
    }

    [Fact]
    public void Window_has_the_policy_of_the_period_in_which_it_closes()
    {
        SpecialDay[] holidays = [new(new(2026, 9, 7), ClosureKind.Published), new(new(2026, 11, 11), ClosureKind.Published)];
        var prorated = Policy.Default with { ShortWindow = ShortWindow.Prorated };
        var line = new ALine
        {
            Special = holidays,
            Policies = new(Policy.Default, (Day.Of(new(2026, 10, 19)), prorated)),
            AsOf = new(2026, 12, 21),
        };

        var first = line.WorkOut();
        var second = (line with { Period = DateRange.Of(new(2026, 10, 19), new(2026, 12, 18)) }).WorkOut();

        Assert.All(first.Closing, w => Assert.Equal(60, w.Minutes.Owed));
        Assert.Equal(48, Assert.Single(second.Closing, w => w.Window.ScheduledDays == 4).Minutes.Owed);
    }

    [Fact]
    public void Working_says_where_each_visit_counted_and_which_counted_nowhere()
    {
        var line = new ALine { AsOf = new(2026, 10, 9) }
            .Given(8, 18, 30)
            .Given(8, 27, 45, pays: new(2026, 8, 21))
            .Given(8, 14, 20)
            .Given(9, 1, 30, pays: new(2026, 8, 1))
            .Given(10, 12, 60)
            .PlannedVisit(10, 6, 60)
            .PlannedVisit(10, 13, 60);

        var working = line.WorkOut();

        Assert.Equal(
            [Fate.Ordinary, Fate.MakeUp, Fate.OutsideTheDates, Fate.NamesNoWindow, Fate.AfterAsOf],
            working.GivenEntries.Select(e => e.Fate));
        Assert.Equal([Fate.NeverLogged, Fate.Ordinary], working.PlannedEntries.Select(e => e.Fate));
        Assert.Equal(new EntryParts { Own = 1, Counted = 15, Pays = 0, Paid = 30 }, working.GivenEntries.ElementAt(1).Parts);
        Assert.Equal(new ToCheck(1, 1, 0, 1, 2, false), working.Balance.ToCheck);
    }

    [Fact]
    public void Decision_for_a_week_without_school_is_ignored_and_listed()
    {
        var holidays = Enumerable.Range(7, 5).Select(day => new SpecialDay(new(2026, 9, day), ClosureKind.Published));
        var line = new ALine { Special = [.. holidays] }.Decided(9, 8, 60, DecisionKind.NotOwed).Decided(9, 15, 60, DecisionKind.NotOwed);

        var working = line.WorkOut();

        Assert.Equal([-1, 4], working.Decisions.Select(d => d.Window));
        Assert.Equal((1, 60), (working.Balance.ToCheck.IgnoredDecisions, working.Balance.Minutes.NotOwed));
    }

    [Fact]
    public void Judging_many_lines_allocates_nothing()
    {
        var promise = new Promise(new(EveryUnit.Week, 1), ALine.Year, new PromiseVersion(ALine.Year.First, 60, 2));
        var windows = new WindowCatalog(new ALine().Calendar, [ALine.FirstPeriod]).Of(promise, ALine.Year);
        Entry[] given = [.. Enumerable.Range(0, 12).Select(i => new Entry(ALine.Year.First + 3 * i, 30, i % 4 == 0 ? ALine.Year.First : Day.None))];
        Entry[] planned = [new(ALine.FirstPeriod.Last, 30), new(ALine.FirstPeriod.Last + 3, 30, ALine.FirstPeriod.Last)];
        Decision[] decisions = [new(ALine.Year.First, 30, Decision.ByLength, DecisionKind.NotOwed)];
        var at = new Judging(ALine.FirstPeriod, ALine.FirstPeriod.Last - 5, new Policies(Policy.Default));
        var (desk, busy) = (new LedgerDesk(), new BusyDays());
        busy.Clear(ALine.FirstPeriod);
        var line = new LineFacts
        {
            Promise = promise,
            Windows = windows,
            Given = given,
            Planned = planned,
            Decisions = decisions,
            DailyLimit = 90,
            Busy = busy,
        };
        var lack = Ledger.Judge(line, at, desk).Minutes.Lack;

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 1000; i++)
            lack += Ledger.Judge(line, at, desk).Minutes.Lack;
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.True(lack > 0);
        Assert.Equal(0, allocated);
    }

    [Theory]
    [InlineData(Status.Met, true)]
    [InlineData(Status.NothingLeftDue, true)]
    [InlineData(Status.BelowPace, true)]
    [InlineData(Status.WithinTolerance, false)]
    [InlineData(Status.OnCourse, false)]
    [InlineData(Status.CannotJudge, false)]
    public void Provider_has_met_both_only_where_every_status_is_met(Status probes, bool met)
    {
        var standing = new ProviderStanding().WithService(Status.Met).WithService(Status.BelowPace).WithProbes(probes);

        Assert.Equal(met, standing.BothMet);
        Assert.Equal(Status.BelowPace, standing.Services);
    }

    [Fact]
    public void Provider_within_tolerance_has_not_met_even_where_a_worse_status_is_pace()
    {
        var standing = new ProviderStanding().WithService(Status.WithinTolerance).WithService(Status.BelowPace);

        Assert.Equal((Status.BelowPace, false), (standing.Services!.Value, standing.BothMet));
    }
}
