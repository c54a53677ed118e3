using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Words about closing a count.</summary>
public static class ClosingWords
{
    public static string Head(ObstacleKind kind) => kind switch
    {
        ObstacleKind.NotLogged => "Visits not logged",
        ObstacleKind.NotConfirmed => "Given together, not confirmed",
        ObstacleKind.NotCountersigned => "Not countersigned",
        ObstacleKind.SetAside => "Set aside",
        ObstacleKind.ReportNotBegun => "Progress report not begun",
        ObstacleKind.ReportNotFinished => "Progress report not finished",
        ObstacleKind.Undecided => "Not given, and nobody has decided",
        _ => "Counts for nothing",
    };

    /// <param name="amount">What is undecided, with its unit.</param>
    public static string HowMuch(Obstacle obstacle, string amount) => obstacle.Kind switch
    {
        ObstacleKind.NotLogged => $"{Say.Count(obstacle.Count, "visit")} that nobody has logged. Until then they count as not given.",
        ObstacleKind.NotConfirmed => $"{Say.Count(obstacle.Count, "visit")} that the named colleague has not confirmed. Until then they count for whoever logged them only.",
        ObstacleKind.NotCountersigned => $"{Say.Count(obstacle.Count, "visit")} that an assistant logged and the supervisor has not countersigned. Until then they count 0 minutes.",
        ObstacleKind.SetAside => $"{Say.Count(obstacle.Count, "thing")} about this learner that a device sent and that nobody has looked at.",
        ObstacleKind.ReportNotBegun => "Nobody has begun the progress report of this period.",
        ObstacleKind.ReportNotFinished => "The case manager has not finished it: paragraphs or signatures may be missing.",
        ObstacleKind.Undecided => $"{amount}. What is closed undecided is brought forward so, and waits for you there.",
        _ => $"{(obstacle.Count == 1 ? "1 visit or decision" : $"{Say.Number(obstacle.Count)} visits or decisions")} outside the dates, or in no week with a school day.",
    };

    /// <summary>What was left standing, and about what: Visits not logged, vision (2).</summary>
    /// <param name="line">The service or goal that it is about; null for what is about the learner as a whole.</param>
    public static string Left(LeftStanding left, CommitmentLine? line) => Head(left.Kind)
        + (line is null ? "" : $", {Say.Within(StandingWords.Name(line))}")
        + (left.Kind is ObstacleKind.NotLogged or ObstacleKind.NotConfirmed or ObstacleKind.NotCountersigned or ObstacleKind.SetAside ? $" ({Say.Number(left.Count)})" : "");

    /// <summary>What a director may answer.</summary>
    public static IEnumerable<SelectListItem> Answers => [new("Open it again", "true"), new("It stays closed", "false")];

    /// <summary>Closed by Marisol Quenby, M.Ed., 25 November 2026, 7:10 pm.</summary>
    public static string Of(StatementEdition edition)
    {
        var how = edition.Edition == 1 ? "Closed" : edition.ReopenedBy is null ? "Restated" : "Closed again";
        var after = edition.ReopenedBy is { } second ? $", after {second} had opened it" : "";
        return $"{how} by {edition.SealedBy}, {edition.Credential}, {At(edition.SealedAt)}{after}";
    }

    public static string At(LocalDateTime at) => HoldWords.At(at);

    public static string Status(Status status) => Say.Begin(StatusWords.Of(status));
}
