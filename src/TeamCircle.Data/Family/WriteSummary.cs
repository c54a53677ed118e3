using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Saves what the case manager wrote into a draft. The checks that are drawn stay as they were brought in.</summary>
public sealed class WriteSummary(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Summary { get; init; }
        public int Version { get; init; }
        public Both Visits { get; init; } = new();
        public Both Practised { get; init; } = new();
        public Both Hers { get; init; } = new();
        public string? SeenBy { get; init; }
        public Both Next { get; init; } = new();
        public Both Home { get; init; } = new();

        /// <summary>In the draft's order.</summary>
        public IReadOnlyList<GoalInput> Goals { get; init; } = [];

        /// <summary>The content with what was typed in place of what stood in it.</summary>
        public SummaryContent Onto(SummaryContent stood) => new(
            Visits.Trimmed(), Practised.Trimmed(), Hers.Trimmed(), Next.Trimmed(), Home.Trimmed(),
            [.. stood.Goals.Select(g => Goals.FirstOrDefault(t => t.Goal == g.Goal) is { } typed ? g with { Words = typed.Words.Trimmed(), Progress = typed.Progress.Trimmed() } : g)],
            string.IsNullOrWhiteSpace(SeenBy) ? null : SeenBy.Trim());

        /// <summary>What a form begins with.</summary>
        public static Input Of(int learner, int summary, int version, SummaryContent content) => new()
        {
            Learner = learner,
            Summary = summary,
            Version = version,
            Visits = content.Visits,
            Practised = content.Practised,
            Hers = content.Hers,
            SeenBy = content.SeenBy,
            Next = content.Next,
            Home = content.Home,
            Goals = [.. content.Goals.Select(g => new GoalInput { Goal = g.Goal, Words = g.Words, Progress = g.Progress })],
        };
    }

    public sealed record GoalInput
    {
        public int Goal { get; init; }
        public Both Words { get; init; } = new();
        public Both Progress { get; init; } = new();
    }

    public sealed record Saved(int Summary);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(WriteSummary), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await SummaryWork.FindAsync(db, caller, input.Learner, input.Summary, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.State != SummaryState.Draft)
            return Outcome<Saved>.Refused(SummaryWork.NotADraft);
        var content = input.Onto(SummaryContent.Read(row.Content));
        Problem[] problems = [.. SummaryRules.CheckContent(content)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        row.Content = content.Write();
        return Outcome<Saved>.Of(new(row.Id));
    }
}
