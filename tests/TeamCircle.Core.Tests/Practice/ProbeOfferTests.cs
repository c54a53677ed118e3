using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using static TeamCircle.Core.Tests.Practice.ATrial;

namespace TeamCircle.Core.Tests.Practice;

public sealed class ProbeOfferTests
{
    private static readonly AgreedStep[] Routine = [new("show", [], []), new("press", [7], Order)];

    private static PracticeRecord Record(params Trial[] trials) =>
        PracticeText.Record with { Trials = trials, Steps = [new("show", HowDone.AsWritten), new("press", HowDone.AsWritten)] };

    private static GoalFigures Figures(PracticeRecord record) => PracticeFigures.Of(record, Routine).Goals[0];

    private static Trial Alone(double at) => With(Cue(), Responds(at), Ends(at));

    private static Trial AfterPrompt => With(Cue(), Prompt(12), Responds(15), Ends(16));

    private static string[] WhyNot(PracticeRecord record, bool isFirst = true) => [.. ProbeOffer.WhyNoProbe(record, Figures(record), Routine, isFirst)];

    [Fact]
    public void Each_measure_gets_the_figure_in_its_own_unit()
    {
        var mixed = Figures(Record(Alone(4), Alone(5.5), AfterPrompt));
        var alone = Figures(Record(Alone(4), Alone(5.5)));

        Assert.Equal(new ProbeOffer(66.7m, 3), ProbeOffer.Of(Measure.PercentIndependent, mixed));
        Assert.Equal(new ProbeOffer(2, 3), ProbeOffer.Of(Measure.ResponsesOf, mixed));
        Assert.Equal(new ProbeOffer(0.33m, 3), ProbeOffer.Of(Measure.AveragePromptsNeeded, mixed));
        Assert.Null(ProbeOffer.Of(Measure.TimeToRespond, mixed)); // one of them is censored
        Assert.Equal(new ProbeOffer(4.8m, 2), ProbeOffer.Of(Measure.TimeToRespond, alone));
        Assert.Null(ProbeOffer.Of(Measure.OwnScale, alone));
        Assert.All([Measure.PercentIndependent, Measure.ResponsesOf, Measure.AveragePromptsNeeded, Measure.TimeToRespond], m => Assert.Null(ProbeOffer.Of(m, Figures(Record()))));
    }

    [Fact]
    public void Probe_is_the_first_chance_of_the_day_without_a_prompt_and_as_written()
    {
        var record = Record(Alone(4));
        Assert.Empty(WhyNot(record));

        Assert.Equal(["it was not the first chance of the day"], WhyNot(record, isFirst: false));
        Assert.Equal(["there were prompts"], WhyNot(Record(Alone(4), AfterPrompt)));
        Assert.Equal(["not every step was done as written"], WhyNot(record with { Steps = [new("press", HowDone.Otherwise, "lying down")] }));
        Assert.Equal(["it was filled in from memory"], WhyNot(Record(With() with { Remembered = new(0) })));
        Assert.Equal(["the practice was stopped"], WhyNot(record with { Stops = [new(3)] }));
    }
}
