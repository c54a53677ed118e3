using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Learners;

public sealed class PlanRulesTests
{
    private static readonly LocalDate Start = new(2026, 9, 14), End = new(2027, 9, 13);

    [Fact]
    public void A_plan_of_a_year_after_the_one_before_can_start() =>
        Assert.Empty(PlanRules.Check(Start, End, [new(new(2025, 9, 14), new(2026, 9, 13))]));

    [Fact]
    public void Two_plans_never_hold_on_one_day() =>
        Assert.Equal("StartDay", Assert.Single(PlanRules.Check(Start, End, [new(new(2025, 9, 15), Start)])).Field);

    [Fact]
    public void A_plan_of_many_years_is_a_slip() => Assert.Equal("EndDay", Assert.Single(PlanRules.Check(Start, End.PlusYears(1), [])).Field);

    [Fact]
    public void Both_dates_are_needed() => Assert.Equal(["StartDay", "EndDay"], PlanRules.Check(null, null, []).Select(p => p.Field));

    [Fact]
    public void A_person_is_named_once_a_day_and_within_the_service()
    {
        var dates = new PlanDates(Start, End);
        NamedPerson[] named = [new(1, Start, new(2026, 12, 18))];
        IEnumerable<string> Fields(int? person, LocalDate? from, LocalDate? to) =>
            AssignmentRules.Check(person, from, to, dates, named, new HashSet<int> { 1, 2 }).Select(p => p.Field);

        Assert.Empty(Fields(2, Start, End));
        Assert.Empty(Fields(1, new(2026, 12, 19), End));
        Assert.Equal(["Person"], Fields(1, new(2026, 12, 18), End));
        Assert.Equal(["Person"], Fields(3, Start, End));
        Assert.Equal(["FromDay"], Fields(2, Start.PlusDays(-1), End));
        Assert.Equal(["ToDay"], Fields(2, Start, End.PlusDays(1)));
    }

    [Fact]
    public void Another_last_day_touches_the_days_between_the_two()
    {
        var named = new NamedPerson(1, Start, new(2026, 12, 18));

        Assert.Equal([new DateInterval(new(2026, 12, 1), new(2026, 12, 18))], AssignmentRules.DaysTouched(named, new(2026, 11, 30)));
        Assert.Equal([new DateInterval(new(2026, 12, 19), new(2027, 1, 8))], AssignmentRules.DaysTouched(named, new(2027, 1, 8)));
        Assert.Empty(AssignmentRules.DaysTouched(named, new(2026, 12, 18)));
        Assert.Equal([new DateInterval(Start, new(2026, 12, 18))], AssignmentRules.DaysTouched(named, null));
    }

    [Theory]
    [InlineData(3, 4, true)]
    [InlineData(4, 4, true)]
    [InlineData(5, 4, false)]
    [InlineData(0, 4, false)]
    public void A_criterion_asks_for_at_most_as_many_days_as_it_looks_at(int days, int of, bool isRight) =>
        Assert.Equal(isRight, !GoalRules.Check(new GoalMeasure(Measure.Count, Better.Up, null, days, of)).Any());

    [Fact]
    public void Half_a_criterion_is_refused() =>
        Assert.Equal("CriterionDays", Assert.Single(GoalRules.Check(new GoalMeasure(Measure.Count, Better.Up, null, 3, null))).Field);

    [Fact]
    public void A_percent_lies_between_0_and_100()
    {
        Assert.Equal("Baseline", Assert.Single(GoalRules.Check(new GoalMeasure(Measure.PercentIndependent, Better.Up, 101, null, null))).Field);
        Assert.Equal("Target", GoalRules.TargetProblem(100.5m, Measure.PercentIndependent)?.Field);
        Assert.Null(GoalRules.TargetProblem(100.5m, Measure.TimeToRespond));
    }

    [Fact]
    public void The_teams_own_scale_has_no_range_of_ours() => Assert.Null(GoalRules.TargetProblem(-2, Measure.OwnScale));

    [Fact]
    public void Demands_of_a_criterion_are_whole_and_need_its_days()
    {
        var measure = new GoalMeasure(Measure.PercentIndependent, Better.Up, null, 3, 4);

        Assert.Empty(GoalRules.Check(measure with { CriterionFewest = 8, CriterionPeople = 2, CriterionPlaces = 2, Chance = 50 }));
        Assert.Equal("CriterionFewest", Assert.Single(GoalRules.Check(measure with { CriterionFewest = 0 })).Field);
        Assert.Equal("CriterionDays", Assert.Single(GoalRules.Check(measure with { CriterionDays = null, CriterionOf = null, CriterionPeople = 2 })).Field);
        Assert.Equal("Chance", Assert.Single(GoalRules.Check(measure with { Chance = 101 })).Field);
        Assert.Equal("InARow", Assert.Single(GoalRules.Check(measure with { InARow = 5 })).Field);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(true, 2, 4, 8)]
    [InlineData(false, 4, 4)]
    [InlineData(false, 0)]
    [InlineData(false, 105)]
    public void Upkeep_weeks_come_one_after_the_other(bool isRight, params int[] weeks) =>
        Assert.Equal(isRight, !GoalRules.Check(new GoalMeasure(Measure.Count, Better.Up, null, null, null) { UpkeepWeeks = weeks }).Any());

    [Fact]
    public void Conditions_of_a_level_that_nobody_gave_are_refused() =>
        Assert.Equal("Baseline", Assert.Single(GoalRules.Check(new GoalMeasure(Measure.Count, Better.Up, null, null, null) { PresentSource = "Plan, page 4" })).Field);

    [Fact]
    public void No_probes_is_an_answer_and_an_empty_number_is_not()
    {
        Assert.Empty(GoalRules.Check(new ProbesEntry(0, EveryUnit.Week, 1, false)));
        Assert.Equal("Probes", Assert.Single(GoalRules.Check(new ProbesEntry(null, EveryUnit.Week, 1, false))).Field);
    }
}
