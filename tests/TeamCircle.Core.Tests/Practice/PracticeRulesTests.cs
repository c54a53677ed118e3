using NodaTime;
using TeamCircle.Core.Practice;
using static TeamCircle.Core.Tests.Practice.ATrial;

namespace TeamCircle.Core.Tests.Practice;

public sealed class PracticeRulesTests
{
    private static readonly AgreedStep[] Routine = [new("press", [7], Order)];

    private static string[] Fields(PracticeRecord record) => [.. PracticeRules.Check(record, Routine).Select(p => p.Field)];

    private static PracticeRecord With(params Trial[] trials) => PracticeText.Record with { Trials = trials };

    [Fact]
    public void Practice_as_it_comes_has_no_problem() => Assert.Empty(Fields(With(
        ATrial.With(Cue(), Begun(3), Responds(4), Ends(4)), ATrial.With() with { Remembered = new(2, 30) })
        with
    { Steps = [new("press", HowDone.Skipped, "too tired")] }));

    [Fact]
    public void What_contradicts_itself_is_named()
    {
        var start = PracticeText.Record.StartedAt;
        Assert.Equal(["EndedAt"], Fields(PracticeText.Record with { EndedAt = start - Duration.Epsilon }));
        Assert.Equal(["EndedAt"], Fields(PracticeText.Record with { EndedAt = start + Duration.FromHours(12) + Duration.Epsilon }));
        Assert.Equal(["Steps"], Fields(With(ATrial.With(Cue()) with { Step = "no such step" })));
        Assert.Equal(["Steps"], Fields(PracticeText.Record with { Steps = [new("press", HowDone.Stopped)] }));
        Assert.Equal(["Steps"], Fields(PracticeText.Record with { Steps = [new("press", HowDone.AsWritten), new("press", HowDone.AsWritten)] }));
        Assert.Equal(["Events"], Fields(With(ATrial.With(Cue(4), Responds(3)))));
        Assert.Equal(["Events"], Fields(With(ATrial.With(Cue(), Cue(2)))));
        Assert.Equal(["Events"], Fields(With(ATrial.With(Cue(), Begun(2) with { Prompt = "point" }))));
        Assert.Equal(["Remembered"], Fields(With(ATrial.With(Cue()) with { Remembered = new(1) })));
        Assert.Equal(["Remembered"], Fields(With(ATrial.With() with { Remembered = new(-1) })));
        Assert.Equal(["Filled"], Fields(PracticeText.Record with { Filled = [new(FilledKind.Rest, -1)] }));
        Assert.Equal(["Filled"], Fields(PracticeText.Record with { Filled = [new(FilledKind.Rest, 5), new(FilledKind.Rest, 5)] }));
        Assert.Equal(["ObservesCode"], Fields(PracticeText.Record with { ObservesCode = "2PF2D" }));
        Assert.Equal(["ObservesCode"], Fields(PracticeText.Record with { ObservesCode = "2PF2DB", Observes = Guid.CreateVersion7() }));
        Assert.Equal(["From"], Fields(PracticeText.Record with { From = new("Ines Belmares", new(2026, 9, 14)) }));
        Assert.Equal(["ConsentBy"], Fields(PracticeText.Record with { Observes = Guid.CreateVersion7(), From = new(" ", new(2026, 9, 14)) }));
        Assert.Equal(["Stops"], Fields(PracticeText.Record with { Stops = [new(5, 4)] }));
        var twice = ATrial.With(Cue());
        Assert.Equal(["Trials"], Fields(With(twice, twice)));
        Assert.Equal(["Trials"], Fields(With([.. Enumerable.Range(0, PracticeRules.MostTrials + 1).Select(_ => ATrial.With(Cue()))])));
    }
}
