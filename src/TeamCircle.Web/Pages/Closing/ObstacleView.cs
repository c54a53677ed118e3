using TeamCircle.Core.Closing;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Pages.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>One thing that stands in the way of closing a count, with the act that resolves it.</summary>
/// <param name="Word">What was typed about it so far.</param>
public sealed record ObstacleView(CountPage Count, CountObstacle Shown, string? Word)
{
    public Obstacle Obstacle => Shown.Obstacle;

    /// <summary>The bound property of the form that holds the words.</summary>
    public string Form { get; init; } = "Input";

    /// <summary>The name of the field for the word.</summary>
    public string Field => $"{Form}." + ClosingRules.WhyField(Obstacle.Key);

    /// <summary>Visits not logged; occupational therapy.</summary>
    public string About => Topic is { } topic ? $"{Head}: {topic}" : Head;

    public string Head => ClosingWords.Head(Obstacle.Kind);

    /// <summary>How much of it there is.</summary>
    public string HowMuch => ClosingWords.HowMuch(Obstacle, Amount);

    /// <summary>The page on which it is resolved; null where each visit is its own.</summary>
    public (string Address, string Words)? Act => Obstacle.Kind switch
    {
        ObstacleKind.SetAside => ("/set-aside", "Look at it"),
        ObstacleKind.ReportNotBegun => ($"/learners/{Count.LearnerId}/reports", "Begin the report"),
        ObstacleKind.ReportNotFinished => ($"/reports/{Shown.Report}", "Open the report"),
        ObstacleKind.Undecided => ($"{Working}{Oldest}", "Decide, week by week"),
        ObstacleKind.CountsNowhere => (Working, "See which"),
        _ => null,
    };

    private string? Topic => Line is { } line ? StandingWords.Topic(line) : null;

    private CommitmentLine? Line => Lines.FirstOrDefault()?.Line;

    private string Oldest => Lines.Select(l => WindowView.OldestUndecided(l.Line, l.Working.Balance)).FirstOrDefault(p => p.Length > 0) ?? "";

    private IEnumerable<LedgerLine> Lines => Count.Ledger.Lines.Where(l => l.Line.IsProbes ? l.Line.Id == Obstacle.Goal : l.Line.Id == Obstacle.Service);

    // Sessions are counted only where no minutes are undecided.
    private string Amount => Obstacle.Goal is not null ? Say.Probes(Obstacle.Count)
        : Lines.Any(l => l.Working.Balance.Minutes.Undecided > 0) ? Say.Minutes(Obstacle.Count) : Say.Sessions(Obstacle.Count);

    private string Working => $"/audit/{(Obstacle.Goal is null ? "services" : "goals")}/{Obstacle.Goal ?? Obstacle.Service}?period={Count.Period.Id}";
}
