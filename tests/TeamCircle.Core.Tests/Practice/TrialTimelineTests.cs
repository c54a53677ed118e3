using TeamCircle.Core.Practice;
using static TeamCircle.Core.Tests.Practice.ATrial;

namespace TeamCircle.Core.Tests.Practice;

public sealed class TrialTimelineTests
{
    [Fact]
    public void Begun_at_10_and_done_at_22_with_a_wait_of_12_needs_no_prompt_and_took_10_seconds_to_respond()
    {
        var trial = Read(Cue(), Begun(10), Responds(22), Ends(24));

        Assert.Equal((10_000, 22_000, 0), (trial.TimeToRespond, trial.Completed, trial.PromptsNeeded));
        Assert.Null(trial.CensoredAt);
        Assert.Empty(trial.Attempts);
        Assert.True(trial.WaitKept);
        Assert.True(trial.WithoutHelp);
        Assert.Equal(10_000, trial.WaitThatEndedInResponse);
    }

    [Fact]
    public void Time_runs_from_the_end_of_the_cue_and_not_from_the_start_of_the_practice() =>
        Assert.Equal(4_500, Read(Cue(61), Responds(65.5)).TimeToRespond);

    [Fact]
    public void Wait_stands_still_while_she_tries_and_goes_on_from_where_it_stood()
    {
        var trial = Read(Cue(), Begun(4), Stopped(9), Prompt(15), Responds(18), Ends(18));

        var prompt = Assert.Single(trial.Prompts);
        Assert.Equal((10_000, 12_000, false), (prompt.Waited, prompt.Agreed, prompt.IsEarly)); // 4 s before, 6 s after
        Assert.Equal((null, 15_000), (trial.TimeToRespond, trial.CensoredAt));
        Assert.Equal([4_000], trial.Attempts);
        Assert.Equal(3_000, trial.WaitThatEndedInResponse);
        Assert.Equal((1, false), (trial.PromptsNeeded, trial.WithoutHelp));
    }

    [Theory]
    [InlineData(9.999, true, false)]
    [InlineData(10, false, false)] // the agreed wait of 12 s less our allowance of 2 s
    [InlineData(14, false, false)]
    [InlineData(14.001, false, true)]
    public void Prompt_may_come_two_seconds_early_and_a_late_one_keeps_the_wait(double at, bool early, bool late)
    {
        var trial = Read(Cue(), Prompt(at, "point"), Ends(30));

        Assert.Equal((early, late), (trial.Prompts[0].IsEarly, trial.Prompts[0].IsLate));
        Assert.Equal(!early, trial.WaitKept);
    }

    [Fact]
    public void Each_prompt_is_held_against_its_own_wait_since_the_one_before()
    {
        Assert.True(Read(Cue(), Prompt(12), Prompt(20), Ends(40)).WaitKept);
        Assert.False(Read(Cue(), Prompt(12), Prompt(17), Ends(40)).WaitKept);
        Assert.True(Read(Cue(), Prompt(12, "underHand"), Prompt(20, "not in the order"), Ends(40)).WaitKept);
    }

    [Fact]
    public void Prompt_while_she_was_trying_says_so_and_keeps_the_attempt()
    {
        var trial = Read(Cue(), Begun(3), Prompt(14, "point"), Responds(16), Ends(17));

        Assert.True(trial.Prompts[0].WhileTrying);
        Assert.Equal(3_000, trial.Prompts[0].Waited);
        Assert.False(trial.WaitKept);
        Assert.Equal([3_000], trial.Attempts);
        Assert.Equal((14_000, 1), (trial.CensoredAt, trial.PromptsNeeded));
    }

    [Fact]
    public void Refusal_ends_the_step_and_is_never_no_response()
    {
        var trial = Read(Cue(), Begun(2), Refuses(6));

        Assert.Equal(TrialEnd.Refused, trial.End);
        Assert.False(trial.IsOpportunity);
        Assert.Equal((6_000, null), (trial.CensoredAt, trial.PromptsNeeded));
        Assert.Equal([2_000], trial.Attempts);
        Assert.Equal(TrialEnd.Response, Read(Cue(), Responds(3), Refuses(6)).End);
    }

    [Fact]
    public void Something_else_first_does_not_hide_the_response_hoped_for()
    {
        var trial = Read(Cue(), Responds(4, ResponseKind.SomethingElse), Prompt(12.5), Responds(15), Ends(16));

        Assert.Equal((ResponseKind.HopedFor, 1), (trial.Response, trial.PromptsNeeded));
        Assert.Equal(4_000, trial.TimeToRespond); // the first response before any prompt, of whatever kind
        Assert.False(trial.WithoutHelp);
        Assert.True(trial.WaitKept);
    }

    [Fact]
    public void Response_that_nobody_judged_is_on_record_and_not_called_the_one_hoped_for()
    {
        var trial = Read(Cue(), Responds(5, kind: null), Ends(6));

        Assert.Equal((TrialEnd.Response, 0, null), (trial.End, trial.PromptsNeeded, trial.Response));
        Assert.True(trial.IsOpportunity);
        Assert.False(trial.WithoutHelp);
    }

    [Fact]
    public void Without_a_response_the_end_of_the_trial_censors()
    {
        var trial = Read(Cue(1), Ends(13));

        Assert.Equal((TrialEnd.NoResponse, 12_000, null), (trial.End, trial.CensoredAt, trial.PromptsNeeded));
        Assert.True(trial.IsOpportunity);
    }

    [Fact]
    public void Late_tap_is_put_back_five_seconds_but_not_before_what_came_before_it()
    {
        Assert.Equal(10_000, Read(Cue(), Responds(15) with { Late = true }).TimeToRespond);
        Assert.Equal(0, Read(Cue(3), Responds(5) with { Late = true }).TimeToRespond);
    }

    [Fact]
    public void Remembered_and_interrupted_trials_have_no_time_but_their_outcome()
    {
        var remembered = TrialTimeline.Of(With() with { Remembered = new(1, AboutSeconds: 20) }, Order);
        var interrupted = TrialTimeline.Of(With(Cue(), Begun(4), Responds(9)) with { Interrupted = true }, Order);

        foreach (var trial in new[] { remembered, interrupted })
        {
            Assert.True(trial.IsOpportunity);
            Assert.Equal((null, null, null, null), (trial.TimeToRespond, trial.Completed, trial.CensoredAt, trial.WaitKept));
        }
        Assert.Equal((1, 0), (remembered.PromptsNeeded, interrupted.PromptsNeeded));
        Assert.Equal(TrialEnd.NoResponse, TrialTimeline.Of(With() with { Remembered = new(null) }, Order).End);
        Assert.Equal(TrialEnd.Refused, TrialTimeline.Of(With(Refuses(0)) with { Remembered = new(null) }, Order).End);
    }

    [Fact]
    public void Trial_broken_off_in_the_middle_is_no_opportunity()
    {
        Assert.Equal(TrialEnd.Unknown, TrialTimeline.Of(With(Cue(), Prompt(13), Ends(20)) with { Interrupted = true }, Order).End);
        Assert.Equal(TrialEnd.Unknown, Read(Cue(), Prompt(13)).End); // nobody ended it
        Assert.False(Read(Cue(), Prompt(13)).IsOpportunity);
    }

    [Fact]
    public void Trial_at_0_seconds_teaches_and_one_that_does_not_count_does_not()
    {
        var atOnce = TrialTimeline.Of(With(Cue(), Prompt(0.2), Responds(3), Ends(4)) with { AtOnce = true }, Order);
        var notCounted = TrialTimeline.Of(With(Cue(), Responds(3)) with { Counts = false }, Order);

        Assert.False(atOnce.IsOpportunity);
        Assert.Equal((1, null, null), (atOnce.PromptsNeeded, atOnce.CensoredAt, atOnce.WaitKept));
        Assert.False(notCounted.IsOpportunity);
    }

    [Fact]
    public void Where_no_wait_was_agreed_nobody_can_say_whether_it_was_kept() =>
        Assert.Null(TrialTimeline.Of(With(Cue(), Prompt(1), Ends(9)), [new("point", null)]).WaitKept);

    /// <summary>KM-04: ten trials with a wait of 5 s, three of them prompted and so censored there (published-values collection, part 4;
    /// a response after the prompt is censored for its time at the wait, part 10).</summary>
    [Fact]
    public void Ten_trials_with_a_wait_of_five_seconds_give_the_times_and_censorings_of_the_example()
    {
        (double At, bool Responded)[] expected =
            [(1.2, true), (2, true), (2, true), (3.4, true), (5, false), (5, false), (0.8, true), (4.1, true), (5, false), (2.7, true)];
        AgreedPrompt[] order = [new("point", 5)];

        foreach (var (at, responded) in expected)
        {
            var trial = TrialTimeline.Of(responded ? With(Cue(), Responds(at), Ends(6)) : With(Cue(), Prompt(at), Responds(7), Ends(8)), order);

            Assert.Equal(responded ? (int)(at * 1000) : null, trial.TimeToRespond);
            Assert.Equal(responded ? null : (int)(at * 1000), trial.CensoredAt);
            Assert.True(trial.WaitKept);
            Assert.Equal(responded, trial.WithoutHelp);
        }
    }
}
