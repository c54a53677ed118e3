using TeamCircle.Core.Practice;
using static TeamCircle.Core.Tests.Practice.ATrial;

namespace TeamCircle.Core.Tests.Practice;

public sealed class ScoredTwiceTests
{
    private static readonly TrialTimeline Alone = Read(Cue(), Responds(5), Ends(6)), Helped = Read(Cue(), Prompt(12), Responds(15), Ends(16)),
        Nothing = Read(Cue(), Ends(30)), Refused = Read(Cue(), Refuses(3)), Unseen = Read();

    private static TrialTimeline Of(string step, TrialTimeline trial) => trial with { Trial = trial.Trial with { Step = step } };

    private static (int Agree, int Trials) Counts(IReadOnlyList<TrialScoredTwice> pairs) => (ScoredTwice.Agreement(pairs).Agree, ScoredTwice.Agreement(pairs).Trials);

    [Fact]
    public void Trials_are_put_together_by_step_and_by_their_number_in_it()
    {
        var pairs = ScoredTwice.Of([Of("press", Alone), Of("reach", Helped), Of("press", Nothing)], [Of("reach", Helped), Of("press", Alone), Of("press", Helped), Of("press", Refused)]);

        Assert.Equal([("press", 1, true), ("reach", 1, true), ("press", 2, false), ("press", 3, false)], pairs.Select(p => (p.Step, p.Number, p.Agrees)));
        Assert.Null(pairs[3].First);
        Assert.Equal((2, 3), Counts(pairs));
    }

    [Fact]
    public void Observers_agree_where_it_ended_alike_after_as_many_prompts_and_what_one_did_not_see_counts_for_nobody()
    {
        static (int, int) Agreement(TrialTimeline first, TrialTimeline second) => Counts(ScoredTwice.Of([first], [second]));

        Assert.Equal((1, 1), Agreement(Refused, Refused));
        Assert.Equal((0, 1), Agreement(Refused, Nothing));
        Assert.Equal((0, 1), Agreement(Alone, Helped));
        Assert.Equal((0, 0), Agreement(Alone, Unseen));
        Assert.Equal((1, 1), Agreement(Alone, TrialTimeline.Of(With() with { Remembered = new(0) }, Order)));
    }

    [Fact]
    public void Total_count_sets_the_smaller_number_without_help_beside_the_larger()
    {
        var pairs = ScoredTwice.Of(
            [Of("a", Alone), Of("b", Alone), Of("c", Helped), Of("d", Unseen)], [Of("a", Helped), Of("b", Helped), Of("c", Alone), Of("d", Alone)]);

        Assert.Equal(50, ScoredTwice.TotalCount(pairs).Value); // two of the first, one of the second, though not one of the same
        Assert.Equal("no intervals", ScoredTwice.TotalCount([]).Why);
    }
}
