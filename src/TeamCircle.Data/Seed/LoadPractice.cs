using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Seed;

/// <summary>The one routine of a made-up learner, and its practices with their trials.</summary>
internal sealed class LoadPractice
{
    private const string FirstPrompt = "p1", SecondPrompt = "p2";
    private const int WaitSeconds = 8;
    private static readonly string[] Asked = ["s2", "s3", "s5"];

    private readonly IReadOnlyList<AgreedStep> _steps;
    private readonly int _routine;
    private readonly Func<Guid> _id;

    /// <param name="id">Makes the ids of practices and trials.</param>
    public LoadPractice(int learner, Func<Guid> id)
    {
        (_routine, _id) = (LoadShape.Routine(learner), id);
        Card = Content(LoadShape.Goal(learner, 0), LoadShape.Goal(learner, 1));
        _steps = AgreedStep.Of(Card);
    }

    public RoutineContent Card { get; }

    /// <summary>A practice that began at a moment of a visit, with what each of its trials comes to.</summary>
    public (PracticeRecord Record, IReadOnlyList<TrialTimeline> Trials) Make(Guid visit, Instant began, Random random)
    {
        var record = new PracticeRecord
        {
            Id = _id(),
            Routine = _routine,
            Version = _routine,
            Visit = visit,
            Entry = PracticeEntry.Live,
            StartedAt = began,
            EndedAt = began + Duration.FromMinutes(6),
            Trials = [.. Enumerable.Range(0, 2 * Asked.Length).Select(i => Trial(Asked[i % Asked.Length], i * 45_000, random))],
            Steps = [.. Card.Steps.Select(s => new StepDone(s.Key, HowDone.AsWritten))],
            Conditions = new() { State = new(random.Next(4) == 0 ? StateOfLearner.Drowsy : StateOfLearner.QuietAlert), Position = Card.Position, Light = Card.Light },
        };
        return (record, PracticeFigures.Of(record, _steps).Trials);
    }

    /// <summary>The goals that a step serves.</summary>
    public int[] GoalsOf(string step) => [.. _steps.First(s => s.Key == step).Goals];

    private static RoutineContent Content(int first, int second) => new()
    {
        Cue = "the object",
        Position = "In the chair.",
        Light = "One lamp.",
        Place = Place.Home,
        Procedure = PromptProcedure.LeastToMost,
        WaitSeconds = WaitSeconds,
        Prompts = [new(FirstPrompt, "Touch the hand once."), new(SecondPrompt, "Say the name once.")],
        Steps =
        [
            new("s1", StepKind.Shown, "Show it.", []),
            new(Asked[0], StepKind.Response, "Looks.", [first]),
            new(Asked[1], StepKind.Response, "Reaches.", [second]),
            new("s4", StepKind.Waiting, "Rest.", []),
            new(Asked[2], StepKind.Response, "Looks again.", [first]),
        ],
    };

    /// <summary>Of ten trials five end in a response of the learner's own, three after a prompt, one is refused, and one has no response.</summary>
    private Trial Trial(string step, int at, Random random)
    {
        var (kind, after) = (random.Next(10), at + 1_500 + random.Next(1000 * WaitSeconds - 1_500));
        var prompted = at + 1000 * WaitSeconds + random.Next(500);
        TrialEvent[] middle = kind switch
        {
            < 5 => [Event(after, TrialEventKind.Begun), Response(after + 1_200), Event(after + 3_000, TrialEventKind.End)],
            < 8 => [Prompt(prompted, FirstPrompt), Response(prompted + 2_000), Event(prompted + 4_000, TrialEventKind.End)],
            8 => [Event(after, TrialEventKind.Refusal)],
            _ => [Prompt(prompted, FirstPrompt), Prompt(prompted + 1000 * WaitSeconds, SecondPrompt), Event(prompted + 2000 * WaitSeconds, TrialEventKind.End)],
        };
        return new() { Id = _id(), Step = step, Events = [Event(at, TrialEventKind.CueEnded), .. middle] };
    }

    private static TrialEvent Event(int at, TrialEventKind kind) => new() { At = at, Kind = kind };

    private static TrialEvent Prompt(int at, string key) => new() { At = at, Kind = TrialEventKind.Prompt, Prompt = key };

    private static TrialEvent Response(int at) => new() { At = at, Kind = TrialEventKind.Response, Response = ResponseKind.HopedFor };
}
