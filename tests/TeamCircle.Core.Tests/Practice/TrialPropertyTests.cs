using CsCheck;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>What holds for every timeline. A failure prints the seed that repeats it, and the trial.</summary>
public sealed class TrialPropertyTests
{
    private const int Tick = 250;

    private static readonly Gen<TrialEvent> Middle =
        from kind in OneOf(TrialEventKind.Begun, TrialEventKind.StoppedTrying, TrialEventKind.Response, TrialEventKind.Prompt)
        from prompt in OneOf<string?>(null, "point", "underHand")
        from response in OneOf<ResponseKind?>(null, ResponseKind.HopedFor, ResponseKind.SomethingElse, ResponseKind.NotSure)
        from gap in Gen.Int[0, 60]
        select new TrialEvent
        {
            At = gap,
            Kind = kind,
            Prompt = kind == TrialEventKind.Prompt ? prompt : null,
            Response = kind == TrialEventKind.Response ? response : null,
        };

    private static readonly Gen<Trial> Any =
        from middle in Middle.List[0, 8]
        from end in OneOf(TrialEventKind.End, TrialEventKind.Refusal)
        from cue in Gen.Int[0, 200]
        from tail in Gen.Int[0, 60]
        select ATrial.With(Placed(middle, end, cue, tail));

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static IEnumerable<TrialEvent> Placed(List<TrialEvent> middle, TrialEventKind end, int cue, int tail)
    {
        var at = cue * Tick;
        yield return new() { At = at, Kind = TrialEventKind.CueEnded };
        foreach (var one in middle)
            yield return one with { At = at += one.At * Tick };
        yield return new() { At = at + tail * Tick, Kind = end };
    }

    [Fact]
    public void Walking_through_the_trial_tick_by_tick_gives_the_same() => Any.Sample(trial =>
    {
        var walked = new Walk(trial);
        var read = TrialTimeline.Of(trial, ATrial.Order);
        Assert.Equal(walked.Waits, read.Prompts.Select(p => p.Waited));
        Assert.Equal((walked.Responded, walked.Censored), (read.TimeToRespond, read.CensoredAt));
        Assert.Equal(walked.EndedWait, read.WaitThatEndedInResponse);
    }, iter: 20_000, print: PracticeText.Of);

    [Fact]
    public void Trial_is_timed_or_censored_and_never_both() => Any.Sample(trial =>
    {
        var read = TrialTimeline.Of(trial, ATrial.Order);
        Assert.True(read.TimeToRespond is null ^ read.CensoredAt is null);
        Assert.Equal(read.TimeToRespond is null, read.Completed is null);
        Assert.False(read.WithoutHelp && read.TimeToRespond is null);
        Assert.True(read.TimeToRespond is null || (read.TimeToRespond >= 0 && read.TimeToRespond <= read.Completed));
        Assert.All(read.Attempts, a => Assert.InRange(a, 0, read.CensoredAt ?? read.TimeToRespond!.Value));
        Assert.Equal(read.End == TrialEnd.Response, read.PromptsNeeded is not null);
    }, iter: 5_000, print: PracticeText.Of);

    [Fact]
    public void When_the_cue_came_in_the_practice_changes_nothing() => Gen.Select(Any, Gen.Int[1, 10_000]).Sample((trial, later) =>
    {
        var moved = trial with { Events = [.. trial.Events.Select(e => e with { At = e.At + later })] };
        var (a, b) = (TrialTimeline.Of(trial, ATrial.Order), TrialTimeline.Of(moved, ATrial.Order));
        Assert.Equal((a.TimeToRespond, a.CensoredAt, a.WaitKept, a.PromptsNeeded), (b.TimeToRespond, b.CensoredAt, b.WaitKept, b.PromptsNeeded));
    }, iter: 2_000, print: t => PracticeText.Of(t.Item1));

    [Fact]
    public void Record_survives_being_written_and_read() => Any.Array[0, 4].Sample(trials =>
    {
        var text = PracticeJson.Write(PracticeText.Record with { Trials = trials });
        Assert.Equal(text, PracticeJson.Write(PracticeJson.Read(text)));
    }, iter: 500, print: t => string.Join('\n', t.Select(PracticeText.Of)));

    /// <summary>The second way: a clock that ticks, and flags that are looked at on each tick.</summary>
    private sealed class Walk
    {
        private int _wait;
        private bool _trying, _over;
        private int _begun;

        public List<int> Waits { get; } = [];
        public int? Responded { get; private set; }
        public int? Censored { get; private set; }
        public int? EndedWait { get; private set; }

        public Walk(Trial trial)
        {
            var start = trial.Events[0].At;
            for (var now = start; !_over; now += Tick)
            {
                foreach (var one in trial.Events.Skip(1).Where(e => e.At == now && !_over))
                    See(one.Kind, now - start);
                if (!_trying)
                    _wait += Tick;
            }
        }

        private void See(TrialEventKind kind, int now)
        {
            if (kind == TrialEventKind.Begun && !_trying)
                (_trying, _begun) = (true, now);
            if (kind == TrialEventKind.Response)
            {
                if (Responded is null && Censored is null)
                    Responded = _trying ? _begun : now;
                EndedWait ??= _wait;
            }
            if (kind is TrialEventKind.StoppedTrying or TrialEventKind.Response)
                _trying = false;
            if (kind is TrialEventKind.Prompt or TrialEventKind.End or TrialEventKind.Refusal && Responded is null)
                Censored ??= now;
            if (kind == TrialEventKind.Prompt)
                Waits.Add(_wait);
            if (kind == TrialEventKind.Prompt)
                _wait = 0;
            _over = kind is TrialEventKind.End or TrialEventKind.Refusal;
        }
    }
}
