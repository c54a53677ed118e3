using System.Globalization;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Web.Pages.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>A practice in the words of the team.</summary>
public static class PracticeWords
{
    /// <summary>3 of 8</summary>
    public static string Of(CountOf count) => $"{Say.Number(count.Count)} of {Say.Number(count.Of)}";

    /// <summary>without help, 3 of 8</summary>
    public static string WithoutHelp(CountOf count) => count.Of == 0 ? "no opportunity" : $"without help, {Of(count)}";

    /// <summary>12.5 s</summary>
    public static string Seconds(int ms) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(ms / 1000m, 1, MidpointRounding.AwayFromZero):0.#} s");

    public static string Average(Ratio average) =>
        Math.Round((decimal)average.Over / (decimal)average.Under, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>10 s, 4.5 s; 2 not within the wait</summary>
    public static string Times(GoalFigures figures)
    {
        var times = figures.TimesToRespond.Count == 0 ? "none measured" : string.Join(", ", figures.TimesToRespond.Select(Seconds));
        return figures.NotWithinTheWait == 0 ? times : $"{times}; {Say.Number(figures.NotWithinTheWait)} without a response before the first prompt or the end";
    }

    public static string End(TrialTimeline trial) => trial.End switch
    {
        TrialEnd.Refused => "said no",
        TrialEnd.NoResponse => "no response",
        TrialEnd.Unknown => "nobody knows how it ended",
        _ => trial.Response switch
        {
            ResponseKind.HopedFor => "the response hoped for",
            ResponseKind.SomethingElse => "something else",
            ResponseKind.NotSure => "not sure",
            _ => "a response, and nobody said which",
        },
    };

    /// <summary>0: without help; 2 prompts; – where there was no response.</summary>
    public static string Prompts(TrialTimeline trial) => trial.PromptsNeeded switch
    {
        null => "–",
        0 => "without help",
        { } n => Say.Count(n, "prompt"),
    };

    /// <summary>10 s, done at 22 s; none within 12.5 s</summary>
    public static string Time(TrialTimeline trial) =>
        trial.TimeToRespond is { } begun ? (trial.Completed == begun ? Seconds(begun) : $"{Seconds(begun)}, done at {Seconds(trial.Completed!.Value)}")
        : trial.CensoredAt is { } censored ? $"none within {Seconds(censored)}{Attempts(trial)}"
        : trial.Trial.Remembered?.AboutSeconds is { } about ? $"about {Say.Number(about)} s, remembered"
        : "–";

    /// <summary>What one observer saw: without help; after 2 prompts; no response; said no; – where they did not score it.</summary>
    public static string Score(TrialTimeline? trial) => trial switch
    {
        null or { End: TrialEnd.Unknown } => "–",
        { PromptsNeeded: { } needed } => needed == 0 ? "response without help" : $"response after {Say.Count(needed, "prompt")}",
        _ => End(trial),
    };

    /// <summary>scored alike in 7 of 8 trials that both scored. Cohen's kappa 0.71, standard error 0.26 (Fleiss, Cohen and Everitt 1969).</summary>
    public static string Agreement(Agreement agreement)
    {
        var alike = $"scored alike in {Of(new CountOf(agreement.Agree, agreement.Trials))} trials that both scored.";
        return agreement switch
        {
            { Trials: 0 } => alike,
            { Kappa.Value: { } kappa, KappaSe.Value: { } error } => string.Create(
                CultureInfo.InvariantCulture, $"{alike} Cohen's kappa {kappa:0.00}, standard error {error:0.00} (Fleiss, Cohen and Everitt 1969)."),
            _ => $"{alike} No kappa: {agreement.Kappa.Why}.",
        };
    }

    /// <summary>Responses without help, total count: 90 percent.</summary>
    public static string TotalCount(IEnumerable<TrialScoredTwice> pairs) => ScoredTwice.TotalCount(pairs).Value is { } percent
        ? $"Responses without help, total count: {WaitWords.Rounded(percent, 0)} percent."
        : "";

    /// <summary>there at the same time; from a recording, consent by Ines Belmares on 14 September 2026</summary>
    public static string From(ConsentedRecording? recording) => recording is null
        ? "there at the same time" : $"from a recording, consent by {recording.ConsentBy} on {Say.Date(recording.ConsentOn)}";

    public static string Wait(TrialTimeline trial) => trial.WaitKept switch
    {
        null => "–",
        true => trial.Prompts.Any(p => p.IsLate) ? "kept, a prompt was late" : "kept",
        false => trial.Prompts.Any(p => p is { IsEarly: true, WhileTrying: true }) ? "a prompt came early, while trying" : "a prompt came early",
    };

    /// <summary>What sets the trial apart; empty where nothing does.</summary>
    public static string Marks(TrialTimeline trial) => string.Join("; ", new[]
    {
        trial.Trial.Counts ? null : "does not count",
        trial.Trial.AtOnce ? "prompt at 0 seconds: teaches" : null,
        trial.Trial.Interrupted ? "interrupted" : null,
        trial.Trial.Remembered is null ? null : "remembered",
    }.OfType<string>());

    public static string Done(HowDone? done) => done switch
    {
        HowDone.AsWritten => "done as written",
        HowDone.Otherwise => "done differently",
        HowDone.Skipped => "skipped",
        HowDone.Stopped => "stopped",
        _ => "nobody said",
    };

    public static string Kind(ProbeKind kind) => kind == ProbeKind.Probe ? "a probe" : "teaching data";

    public static string Offer(Measure measure, ProbeOffer offer) => ProbeWords.Value(measure, offer.Value, offer.Opportunities);

    private static string Attempts(TrialTimeline trial) => trial.Attempts.Count == 0 ? "" : $"; tried at {string.Join(", ", trial.Attempts.Select(Seconds))}";
}
