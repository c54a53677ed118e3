using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Time;
using static TeamCircle.Core.Tests.Practice.ATrial;

namespace TeamCircle.Core.Tests.Practice;

public sealed class PracticeFiguresTests
{
    private static readonly AgreedStep[] Routine = [new("show", [], []), new("press", [7], Order), new("reach", [7, 8], Order)];

    private static PracticeFigures Of(params Trial[] trials) => PracticeFigures.Of(PracticeText.Record with { Trials = trials }, Routine);

    private static GoalFigures Goal(int goal, params Trial[] trials) => Of(trials).Goals.Single(g => g.Goal == goal);

    private static Trial Alone(double at = 5) => With(Cue(), Responds(at), Ends(at + 1));

    private static Trial AfterPrompt => With(Cue(), Prompt(12), Responds(15), Ends(16));

    private static Trial Nothing => With(Cue(), Prompt(12), Prompt(20), Ends(30));

    /// <summary>PR-01: 8 of 12 steps without help are 66.7 percent (published-values collection, part 10: independent steps over all steps).</summary>
    [Fact]
    public void Eight_of_twelve_without_help_are_two_thirds()
    {
        var figures = Goal(7, [.. Enumerable.Repeat(0, 8).Select(_ => Alone()), .. Enumerable.Repeat(0, 3).Select(_ => AfterPrompt), Nothing]);

        Assert.Equal(new CountOf(8, 12), figures.WithoutHelp);
        Assert.Equal(66.7m, figures.WithoutHelp.Percent);
    }

    /// <summary>PR-02: 0 of 0 is not applicable (same place).</summary>
    [Fact]
    public void Without_an_opportunity_there_is_no_share_and_no_average()
    {
        var figures = Goal(7, With(Cue(), Refuses(3)), Alone() with { Counts = false }, With(Cue(), Prompt(0), Responds(2)) with { AtOnce = true });

        Assert.Equal(new CountOf(0, 0), figures.WithoutHelp);
        Assert.Null(figures.WithoutHelp.Percent);
        Assert.Null(figures.AveragePrompts);
        Assert.Equal(1, figures.Refused);
    }

    /// <summary>A response after a prompt is not without help, and its time is censored at the wait (part 10).</summary>
    [Fact]
    public void Response_after_a_prompt_is_help_and_censored()
    {
        var figures = Goal(7, Alone(4), AfterPrompt, Nothing);

        Assert.Equal(new CountOf(1, 3), figures.WithoutHelp);
        Assert.Equal([4_000], figures.TimesToRespond);
        Assert.Equal(2, figures.NotWithinTheWait);
    }

    [Fact]
    public void No_response_counts_one_more_than_the_order_has_prompts() =>
        Assert.Equal(new Ratio(0 + 1 + 3, 3), Goal(7, Alone(), AfterPrompt, Nothing).AveragePrompts);

    [Fact]
    public void Trial_counts_for_every_goal_of_its_step_and_for_no_other()
    {
        var reach = Alone() with { Step = "reach" };

        Assert.Equal(new CountOf(2, 2), Goal(7, Alone(), reach).WithoutHelp);
        Assert.Equal(new CountOf(1, 1), Goal(8, Alone(), reach).WithoutHelp);
        Assert.Equal([7, 8], Of().Goals.Select(g => g.Goal));
    }

    [Fact]
    public void Card_gives_its_prompts_with_their_waits_to_the_steps_that_ask_for_a_response()
    {
        var card = new RoutineContent
        {
            WaitSeconds = 12,
            Prompts = [new("point", "point at it"), new("underHand", "hand under hers", WaitSeconds: 8)],
            Steps = [new("show", StepKind.Shown, "Show the can.", []), new("press", StepKind.Response, "She presses.", [7]), new("reach", StepKind.Response, "She reaches.", [7, 8], 20)],
        };

        var steps = AgreedStep.Of(card);

        Assert.Equal([0, 2, 2], steps.Select(s => s.Prompts.Count));
        Assert.Equal(Order, steps[1].Prompts);
        Assert.Equal([20, 20], steps[2].Prompts.Select(p => p.WaitSeconds));
        Assert.Equal([7, 8], steps[2].Goals);
    }

    [Fact]
    public void Step_that_nobody_spoke_of_was_due_and_not_done_as_written()
    {
        var record = PracticeText.Record with { Steps = [new("show", HowDone.AsWritten), new("press", HowDone.Otherwise, "she was on her side")] };

        var figures = PracticeFigures.Of(record, Routine);

        Assert.Equal(new CountOf(1, 3), figures.Steps);
        Assert.Equal(new CountOf(0, 2), figures.Goals[0].Steps);
    }

    [Fact]
    public void Waits_are_counted_where_one_was_agreed_and_timed() =>
        Assert.Equal(new CountOf(2, 3), Of(Alone(), AfterPrompt, With(Cue(), Prompt(3), Ends(9)), Alone() with { Interrupted = true }).Waits);

    [Fact]
    public void Proposal_is_the_longest_wait_that_ended_in_a_response_and_half_again()
    {
        var trials = Of(Alone(4), With(Cue(), Begun(9), Responds(22), Ends(23)), With(Cue(), Prompt(12), Responds(23.5), Ends(24)), Nothing).Trials;

        var proposal = WaitProposal.Of(trials);

        Assert.Equal((11_500, 18), (proposal.Longest, proposal.Seconds)); // 17.25 s, up to the next whole second
        Assert.Null(WaitProposal.Of(Of(Nothing).Trials).Seconds);
        Assert.Contains("no source", WaitProposal.BeforeData, StringComparison.Ordinal);
    }
}
