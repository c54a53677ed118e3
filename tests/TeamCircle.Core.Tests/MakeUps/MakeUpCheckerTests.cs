using TeamCircle.Core.MakeUps;

namespace TeamCircle.Core.Tests.MakeUps;

/// <summary>The checker finds each kind of broken rule; without that its silence would say nothing.</summary>
public sealed class MakeUpCheckerTests
{
    private const int Nine = 9 * 60;

    private static readonly MakeUpProblem Problem = new AProblem()
        .And(new("therapy", 8, "Wren", "Bram", "Wren's home", 30, 30, 60))
        .And(new("other", 1, "Jonah", "Bram", "Jonah's home", 60, 30, 60))
        .Busy("third", "Bram", "Wren", "Wren's home", 1, Nine + 120, Nine + 150)
        .BramHasAtMost(120).WrenHasAtMost(90).Build();

    [Theory]
    [InlineData(0, 1, Nine + 5, Nine + 35, "off the grid")]
    [InlineData(0, 3, Nine, Nine + 30, "no day that is left")]
    [InlineData(0, 1, Nine, Nine + 15, "not as long as a visit may be")]
    [InlineData(0, 2, Nine - 30, Nine, "outside the provider's hours")]
    [InlineData(0, 2, Nine - 30, Nine, "outside the learner's hours")]
    [InlineData(0, 1, Nine + 105, Nine + 135, "overlaps what stands on the calendar")]
    [InlineData(2, 1, Nine + 75, Nine + 105, "no time to travel to or from the calendar's")]
    [InlineData(1, 1, Nine, Nine + 60, "gets more than it lacks")]
    public void One_visit_that_breaks_a_rule_is_found(int need, int day, int start, int end, string rule) =>
        Assert.Contains(Broken(new ProposedVisit(need, new(day, start, end))), b => b.Contains(rule, StringComparison.Ordinal));

    [Fact]
    public void Two_visits_that_break_a_rule_together_are_found()
    {
        var one = new ProposedVisit(0, new(1, Nine, Nine + 30));

        Assert.Contains(Broken(one, new(1, new(1, Nine + 30, Nine + 60))), b => b.Contains("of one service on one day", StringComparison.Ordinal));
        Assert.Contains(Broken(one, new(2, new(1, Nine + 15, Nine + 45))), b => b.Contains("overlap", StringComparison.Ordinal));
        Assert.Contains(Broken(one, new(2, new(1, Nine + 45, Nine + 75))), b => b.Contains("no time to travel", StringComparison.Ordinal));
        Assert.DoesNotContain(Broken(one, new(2, new(1, Nine + 60, Nine + 90))), b => b.Contains("travel", StringComparison.Ordinal));
    }

    [Fact]
    public void Day_that_holds_more_than_its_limit_is_found()
    {
        Assert.Contains(Broken(new ProposedVisit(0, new(1, Nine, Nine + 75))), b => b.StartsWith("Wren has more than 90", StringComparison.Ordinal));
        Assert.Contains(Broken(new(0, new(1, Nine, Nine + 60)), new(2, new(1, Nine + 90, Nine + 130))), b => b.StartsWith("Bram has more than 120", StringComparison.Ordinal));
    }

    [Fact]
    public void Figures_that_do_not_belong_to_the_visits_are_found()
    {
        var answer = MakeUpPlanner.First(Problem);
        var wrong = answer with { Levels = [.. answer.Levels.Select(l => l with { Value = l.Value + 1 })] };

        Assert.Empty(MakeUpChecker.BrokenRules(Problem, answer));
        Assert.NotEmpty(MakeUpChecker.BrokenRules(Problem, wrong));
        Assert.NotEmpty(MakeUpChecker.BrokenRules(Problem, answer with { Unmet = [new(0, 15, UnmetReason.Days)] }));
    }

    private static List<string> Broken(params ProposedVisit[] visits)
    {
        var levels = Enum.GetValues<LevelName>().Select(name => new Level(name, 0, 0)).ToList();
        return MakeUpChecker.BrokenRules(Problem, new(visits, [], levels));
    }
}
