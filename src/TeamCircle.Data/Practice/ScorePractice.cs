using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Practice;

/// <summary>Scores the trials of a practice once more, from a recording to which somebody consented. The recording stays where it is.</summary>
public sealed class ScorePractice(Portal portal, RecordPractice record)
{
    /// <summary>What a second observer saw of one trial.</summary>
    public enum Seen
    {
        /// <summary>It was not to be seen: the trial is left out.</summary>
        Not,
        Response,
        NoResponse,
        SaidNo,
    }

    /// <param name="Prompts">How many prompts came before the response; 0 for one without help, as for all but a response.</param>
    public sealed record Score(Seen Seen = Seen.Not, int Prompts = 0);

    public sealed record Input
    {
        public Guid Practice { get; init; }

        /// <summary>One for each trial of the practice, in its order.</summary>
        public Score[] Trials { get; init; } = [];
        public string? ConsentBy { get; init; }
        public LocalDate? ConsentOn { get; init; }
    }

    /// <summary>Refused with <see cref="Problem.NotFound"/> for whoever practised, and where the practice is none of the caller's.</summary>
    public Task<Outcome<RecordPractice.Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(ScorePractice), input), db => WorkAsync(db, caller, operation, input, stop), stop);

    private async Task<Outcome<RecordPractice.Saved>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        var first = await db.Practices.AsNoTracking().SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Practice && p.Live, stop);
        if (first is null || !ReadPractice.MayScore(caller, first))
            return Outcome<RecordPractice.Saved>.Refused(Problem.NotFound);
        var scored = PracticeJson.Read(first.Record);
        Problem[] problems = [.. Check(input, scored, caller.Today)];
        return problems.Length > 0
            ? Outcome<RecordPractice.Saved>.Refused(problems)
            : await record.InAsync(db, caller, new(RecordOf(operation, first, scored, input)), stop);
    }

    private static IEnumerable<Problem> Check(Input input, PracticeRecord scored, LocalDate today)
    {
        if (string.IsNullOrWhiteSpace(input.ConsentBy) || input.ConsentBy.Trim().Length > PracticeRules.LongestName)
            yield return new(nameof(input.ConsentBy), "Name who gave consent to the recording.");
        if (input.ConsentOn is not { } day)
            yield return new(nameof(input.ConsentOn), "Give the day on which they gave it.");
        else if (day > today)
            yield return new(nameof(input.ConsentOn), "That is still to come.");
        if (input.Trials.Length != scored.Trials.Count || Array.TrueForAll(input.Trials, t => t.Seen == Seen.Not))
            yield return new(nameof(input.Trials), "Score the trials that are to be seen in the recording.");
    }

    /// <summary>The same practice without its times: nobody takes them from a recording. The operation's id is the score's too, so that a repeat is the same.</summary>
    private static PracticeRecord RecordOf(Guid operation, PracticeRow first, PracticeRecord scored, Input input) => new()
    {
        Id = operation,
        Routine = scored.Routine,
        Version = scored.Version,
        Entry = PracticeEntry.Remembered,
        StartedAt = first.StartedAt,
        EndedAt = first.EndedAt,
        Observes = first.Id,
        From = new(input.ConsentBy!.Trim(), input.ConsentOn!.Value),
        Trials = [.. scored.Trials.Zip(input.Trials, (trial, score) => TrialOf(trial, score))],
    };

    private static Trial TrialOf(Trial trial, Score score) => new()
    {
        Id = Guid.CreateVersion7(),
        Step = trial.Step,
        AtOnce = trial.AtOnce,
        Counts = trial.Counts,
        Events = score.Seen == Seen.SaidNo ? [new() { At = 0, Kind = TrialEventKind.Refusal }] : [],
        Remembered = score.Seen is Seen.Response or Seen.NoResponse ? new(score.Seen == Seen.Response ? score.Prompts : null) : null,
    };
}
