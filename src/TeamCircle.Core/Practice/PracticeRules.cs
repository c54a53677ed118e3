namespace TeamCircle.Core.Practice;

/// <summary>What holds in itself for a practice that was recorded; whether it may be stored is for whoever knows the learner.</summary>
public static class PracticeRules
{
    public const int MostTrials = 500, MostEvents = 200;

    /// <summary>The longest practice, as for a visit.</summary>
    public const int LongestMinutes = 12 * 60;

    /// <summary>The longest name of a person, in letters.</summary>
    public const int LongestName = 100;

    private const int LongestText = 1_000;

    /// <summary>Everything that contradicts itself, or is more than anybody records.</summary>
    /// <param name="steps">What the version that was practised says.</param>
    public static IEnumerable<Problem> Check(PracticeRecord record, IReadOnlyList<AgreedStep> steps)
    {
        if (record.EndedAt < record.StartedAt)
            yield return new("EndedAt", "The practice ends before it starts.");
        if (record.EndedAt - record.StartedAt > NodaTime.Duration.FromMinutes(LongestMinutes))
            yield return new("EndedAt", "The practice lasts longer than 12 hours.");
        if (record.Trials.Count > MostTrials || record.Trials.Any(t => t.Events.Count > MostEvents))
            yield return new("Trials", "There are more trials than anybody can give.");
        if (record.Trials.Select(t => t.Id).Distinct().Count() < record.Trials.Count)
            yield return new("Trials", "A trial stands twice in it.");
        var keys = steps.Select(s => s.Key).ToHashSet();
        if (record.Trials.Any(t => !keys.Contains(t.Step)) || record.Steps.Any(s => !keys.Contains(s.Step)))
            yield return new("Steps", "It names a step that this version of the routine does not have.");
        if (record.Steps.Select(s => s.Step).Distinct().Count() < record.Steps.Count)
            yield return new("Steps", "A step stands twice in it.");
        if (record.Steps.Any(s => s.Done != HowDone.AsWritten && string.IsNullOrWhiteSpace(s.Why)))
            yield return new("Steps", "A step that was not done as written says why.");
        foreach (var problem in record.Trials.SelectMany(Events).Concat(Amounts(record)).Concat(CheckFilled(record.Filled)).Concat(Second(record)).Distinct())
            yield return problem;
    }

    /// <summary>What fills a visit beside practice: each kind once, for minutes that a visit has.</summary>
    public static IEnumerable<Problem> CheckFilled(IReadOnlyCollection<Filled> filled)
    {
        if (filled.Any(f => f.Minutes is < 0 or > LongestMinutes))
            yield return new("Filled", "What filled the hour lasts from 0 to 720 minutes.");
        if (filled.Select(f => f.Kind).Distinct().Count() < filled.Count || filled.Any(f => !Enum.IsDefined(f.Kind)))
            yield return new("Filled", "What filled the hour stands twice in it, or is none of the choices.");
    }

    private static IEnumerable<Problem> Second(PracticeRecord record)
    {
        if (record.ObservesCode is not null && (record.Observes is not null || ObserverCode.Read(record.ObservesCode) is null))
            yield return new("ObservesCode", "The code of the first person's sheet has six letters and digits.");
        if (record.From is not null && record.Observes is null)
            yield return new("From", "What is scored from a recording names the practice that was recorded.");
        if (record.From is { } from && (string.IsNullOrWhiteSpace(from.ConsentBy) || from.ConsentBy.Length > LongestName))
            yield return new("ConsentBy", $"Say in under {LongestName} letters who gave consent to the recording.");
    }

    private static IEnumerable<Problem> Events(Trial trial)
    {
        if (trial.Events.Zip(trial.Events.Skip(1)).Any(pair => pair.Second.At < pair.First.At) || trial.Events.Any(e => e.At < 0))
            yield return new("Events", "The events of a trial are not in order.");
        if (trial.Events.Count(e => e.Kind == TrialEventKind.CueEnded) > 1)
            yield return new("Events", "A trial has one cue.");
        if (trial.Events.Any(e => e.Kind != TrialEventKind.Response && (e.Response is not null || e.How is not null)))
            yield return new("Events", "Only a response says of which kind it was.");
        if (trial.Events.Any(e => e.Kind != TrialEventKind.Prompt && e.Prompt is not null))
            yield return new("Events", "Only a prompt names a prompt.");
        if (trial.Remembered is { PromptsNeeded: < 0 or > MostEvents } or { AboutSeconds: < 0 or > LongestMinutes * 60 })
            yield return new("Remembered", "What was remembered is no number of prompts, or no time.");
        if (trial.Remembered is not null && trial.Events.Any(e => e.Kind != TrialEventKind.Refusal))
            yield return new("Remembered", "A trial is recorded while it happens or remembered, not both.");
    }

    private static IEnumerable<Problem> Amounts(PracticeRecord record)
    {
        if (record.UnaskedClosures.Any(at => at < 0) || record.Conditions is { Hits: < 0 } or { Misses: < 0 })
            yield return new("UnaskedClosures", "Closures and hits are not negative.");
        if (record.Stops.Any(s => s.At < 0 || s.ResumedAt < s.At))
            yield return new("Stops", "A practice goes on after it was stopped, not before.");
        if (record.Stops.SelectMany(s => new[] { s.What, s.Done, s.Told }).Concat(record.Steps.Select(s => s.Why)).Any(t => t?.Length > LongestText))
            yield return new("Stops", "A text is longer than 1,000 letters.");
    }
}
