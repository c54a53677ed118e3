using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

public sealed class MakeUpPlannerTests
{
    private const int Nine = 9 * 60;
    private static readonly Effort Little = new(10);

    [Fact]
    public void Small_problems_are_solved_as_well_as_by_trying_everything()
    {
        var run = Environment.TickCount;
        for (var i = 0; i < 200; i++)
        {
            var seed = unchecked(run + i);
            var problem = SmallProblem.Make(new Random(seed));
            var first = MakeUpPlanner.First(problem);
            var answer = MakeUpPlanner.Solve(problem, Little);

            Assert.True(MakeUpChecker.BrokenRules(problem, first) is [], $"seed {seed}, first answer: {string.Join("; ", MakeUpChecker.BrokenRules(problem, first))}");
            Assert.True(MakeUpChecker.BrokenRules(problem, answer) is [], $"seed {seed}: {string.Join("; ", MakeUpChecker.BrokenRules(problem, answer))}");
            Assert.True(answer.Levels.All(l => l.IsProven), $"seed {seed}: not all levels are proven");
            var best = ExhaustiveSearch.LevelValues(problem);
            Assert.True(best.SequenceEqual(answer.Levels.Select(l => l.Value)),
                $"seed {seed}: {string.Join(", ", answer.Levels.Select(l => l.Value))}, but {string.Join(", ", best)} is possible");
        }
    }

    [Fact]
    public void Same_problem_gets_the_same_answer()
    {
        var problem = SmallProblem.Make(new Random(7));

        var (one, other) = (MakeUpPlanner.Solve(problem, Little), MakeUpPlanner.Solve(problem, Little));

        Assert.Equal(one.Visits, other.Visits);
        Assert.Equal(one.Levels, other.Levels);
    }

    [Fact]
    public void What_lacks_is_made_up_on_the_first_day_in_one_visit()
    {
        var answer = Solve(new AProblem());

        Assert.Equal([0, 1, 1, 0], answer.Levels.Select(l => l.Value));
        Assert.Equal(60, Assert.Single(answer.Visits).When.Minutes);
        Assert.Empty(answer.Unmet);
    }

    [Fact]
    public void Day_with_a_visit_to_the_same_place_is_preferred()
    {
        var answer = Solve(new AProblem().Busy("other service", "Bram", "Jonah", "Wren's home", 2, Nine, Nine + 30));

        Assert.Equal([0, 0, 1, 1], answer.Levels.Select(l => l.Value));
    }

    [Fact]
    public void Day_that_has_a_visit_of_the_service_gets_no_second_one()
    {
        var answer = Solve(new AProblem().Busy("therapy", "Bram", "Wren", "Wren's home", 1, Nine, Nine + 30));

        Assert.Equal(2, Assert.Single(answer.Visits).When.Day);
    }

    [Fact]
    public void Two_windows_of_one_service_are_paid_on_two_days()
    {
        var answer = Solve(new AProblem().And(new("therapy", 8, "Wren", "Bram", "Wren's home", 30, 30, 60)));

        Assert.Equal([1, 2], answer.Visits.Select(v => v.When.Day));
    }

    [Fact]
    public void Oldest_of_windows_that_are_alike_gets_the_earliest_visit()
    {
        var (later, last) = (new Need("therapy", 8, "Wren", "Bram", "Wren's home", 60, 30, 60), new Need("therapy", 15, "Wren", "Bram", "Wren's home", 60, 30, 60));

        var answer = Solve(new AProblem().And(last).And(later));

        Assert.Equal([0, 2], answer.Visits.Select(v => v.Need));
        Assert.Equal(1, Assert.Single(answer.Unmet).Need);
    }

    [Fact]
    public void Proposals_that_differ_in_their_windows_alone_are_one()
    {
        var problem = new AProblem().And(new("therapy", 8, "Wren", "Bram", "Wren's home", 60, 30, 60)).Build();

        Assert.Single(MakeUpPlanner.Propose(problem, Little)); // both days are needed, whichever window they pay
    }

    [Fact]
    public void Group_visit_counts_once_against_the_day()
    {
        var problem = new AProblem().Days(1).BramHasAtMost(120)
            .Busy("group", "Bram", "Jonah", "Wren's home", 1, Nine, Nine + 60)
            .Busy("group too", "Bram", "Wren", "Wren's home", 1, Nine, Nine + 60);

        Assert.Equal(0, Solve(problem)[LevelName.Unmet].Value);
    }

    [Fact]
    public void Adults_time_needs_no_open_hours_of_the_learner()
    {
        var problem = new AProblem().And(new("advice", 1, null, "Bram", "Wren's home", 30, 30, 30)).WrenIsOpen(0, 15).Build();

        var answer = MakeUpPlanner.Solve(problem, Little);

        Assert.Equal(1, Assert.Single(answer.Visits).Need);
        Assert.Empty(MakeUpChecker.BrokenRules(problem, answer));
    }

    [Fact]
    public void Limit_without_which_more_could_be_met_is_named()
    {
        Assert.Equal(UnmetReason.ProviderHours, Reason(new AProblem().BramWorks(Nine, Nine + 15)));
        Assert.Equal(UnmetReason.ProviderDay, Reason(new AProblem().BramHasAtMost(0)));
        Assert.Equal(UnmetReason.LearnerHours, Reason(new AProblem().WrenIsOpen(Nine, Nine + 15)));
        Assert.Equal(UnmetReason.LearnerDay, Reason(new AProblem().WrenHasAtMost(20)));
        Assert.Equal(UnmetReason.Travel, Reason(new AProblem().Travel(90).Days(1).Busy(null, "Bram", "Jonah", "Jonah's home", 1, Nine + 60, Nine + 90)));
        Assert.Equal(UnmetReason.Days, Reason(new AProblem().Lacking(180, 30, 60)));
        Assert.Equal(UnmetReason.Lengths, Reason(new AProblem().Lacking(20, 45, 60).Days(1).And(new("x", 1, null, "Bram", "Wren's home", 40, 30, 30)), need: 1));
        Assert.Equal(UnmetReason.Several, Reason(new AProblem().BramWorks(Nine, Nine + 15).WrenHasAtMost(20)));
    }

    [Fact]
    public void Three_proposals_are_as_good_as_each_other_and_different()
    {
        var problem = new AProblem().Days(1, 2, 3, 4).Build();

        var proposals = MakeUpPlanner.Propose(problem, Little);

        Assert.Equal(3, proposals.Count);
        Assert.Equal(3, proposals.Select(p => p.Visits[0].When.Day).Distinct().Count());
        Assert.All(proposals, p => Assert.Equal([0, 1, 1], p.Levels.Take(3).Select(l => l.Value)));
        Assert.All(proposals, p => Assert.Empty(MakeUpChecker.BrokenRules(problem, p)));
    }

    [Fact]
    public void Only_proposal_that_is_possible_stands_alone() =>
        Assert.Single(MakeUpPlanner.Propose(new AProblem().Days(1).Build(), Little));

    [Fact]
    public void Progress_begins_with_the_first_answer_and_never_gets_worse()
    {
        var problem = SmallProblem.Make(new Random(11));
        var told = new List<MakeUpAnswer>();

        var answer = MakeUpPlanner.Solve(problem, Little, told.Add);

        Assert.Equal(MakeUpPlanner.First(problem).Visits, told[0].Visits);
        Assert.All(told, t => Assert.Empty(MakeUpChecker.BrokenRules(problem, t)));
        Assert.All(told.Zip(told.Skip(1).Append(answer)), pair => Assert.True(Rank(pair.First).CompareTo(Rank(pair.Second)) >= 0));
    }

    [Fact]
    public void Proposal_of_a_search_that_did_not_end_can_be_explained_afterwards()
    {
        for (var seed = 0; seed < 40; seed++)
        {
            var problem = SmallProblem.Make(new Random(seed));
            var answer = MakeUpPlanner.Solve(problem, Little);
            var without = answer with { Unmet = [.. answer.Unmet.Select(u => u with { Because = UnmetReason.SearchEnded })] };

            var explained = MakeUpPlanner.Explain(problem, without);

            Assert.Equal(answer.Visits, explained.Visits);
            Assert.Equal(answer.Unmet, explained.Unmet);
            Assert.Equal(answer.Levels, explained.Levels);
        }
    }

    [Fact]
    public void Day_that_was_refused_is_not_proposed_again()
    {
        var problem = new AProblem().Build() with { Refused = [("therapy", 1, 1)] };

        Assert.Equal(2, Assert.Single(MakeUpPlanner.Solve(problem, Little).Visits).When.Day);
    }

    [Theory]
    [InlineData(1, Nine, Nine + 60, true)]
    [InlineData(1, Nine + 60, Nine + 120, false)] // overlaps what stands there
    [InlineData(1, Nine + 5, Nine + 35, false)] // off the grid
    [InlineData(1, Nine, Nine + 15, false)] // too short
    [InlineData(3, Nine, Nine + 60, false)] // no day that is left
    public void Visit_on_its_own_is_held_to_the_calendar(int day, int start, int end, bool allowed)
    {
        var problem = new AProblem().Busy("other", "Bram", "Wren", "Wren's home", 1, Nine + 90, Nine + 120).Build();

        Assert.Equal(allowed, MakeUpPlanner.Allows(problem, new(0, new(day, start, end))));
    }

    [Fact]
    public void Nothing_is_proposed_where_nothing_lacks() =>
        Assert.Empty(MakeUpPlanner.Solve(new AProblem().Build() with { Needs = [] }, Little).Visits);

    private static MakeUpAnswer Solve(AProblem problem)
    {
        var built = problem.Build();
        var answer = MakeUpPlanner.Solve(built, Little);
        Assert.Empty(MakeUpChecker.BrokenRules(built, answer));
        return answer;
    }

    private static UnmetReason Reason(AProblem problem, int need = 0) => Assert.Single(Solve(problem).Unmet, u => u.Need == need).Because;

    private static (int, int, int, int) Rank(MakeUpAnswer answer) =>
        (answer.Levels[0].Value, answer.Levels[1].Value, answer.Levels[2].Value, answer.Levels[3].Value);
}
