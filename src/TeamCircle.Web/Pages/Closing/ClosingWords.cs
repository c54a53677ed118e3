using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Words about closing a count.</summary>
public static class ClosingWords
{
    public static string Head(ObstacleKind kind) => kind switch
    {
        ObstacleKind.NotLogged => "Visits not logged",
        ObstacleKind.NotConfirmed => "Given together, not confirmed",
        ObstacleKind.SetAside => "Set aside",
        ObstacleKind.ReportNotBegun => "Progress report not begun",
        ObstacleKind.ReportNotFinished => "Progress report not finished",
        ObstacleKind.Undecided => "Not given, and nobody has decided",
        _ => "Counts for nothing",
    };

    public static string HowMuch(Obstacle obstacle, bool isProbes) => obstacle.Kind switch
    {
        ObstacleKind.NotLogged => $"{Say.Count(obstacle.Count, "visit")} that nobody has logged. Until then they count as not given.",
        ObstacleKind.NotConfirmed => $"{Say.Count(obstacle.Count, "visit")} that the named colleague has not confirmed. Until then they count for whoever logged them only.",
        ObstacleKind.SetAside => $"{Say.Count(obstacle.Count, "thing")} about this learner that a device sent and that nobody has looked at.",
        ObstacleKind.ReportNotBegun => "Nobody has begun the progress report of this period.",
        ObstacleKind.ReportNotFinished => "The case manager has not finished it: paragraphs or signatures may be missing.",
        ObstacleKind.Undecided => $"{(isProbes ? Say.Probes(obstacle.Count) : Say.Minutes(obstacle.Count))}. What is closed undecided is brought forward so, and waits for you there.",
        _ => $"{(obstacle.Count == 1 ? "1 visit or decision" : $"{Say.Number(obstacle.Count)} visits or decisions")} outside the dates, or in no week with a school day.",
    };

    /// <summary>What a director may answer.</summary>
    public static IEnumerable<SelectListItem> Answers => [new("Open it again", "true"), new("It stays closed", "false")];

    /// <summary>What an edition is, after its number.</summary>
    public static string Of(StatementEdition edition) => edition.Edition == 1 ? "closed"
        : edition.ReopenedBy is { } second ? $"closed again after {second} opened it" : "restated";

    public static string At(LocalDateTime at) => HoldWords.At(at);

    public static string Status(Status status) => Say.Begin(StatusWords.Of(status));
}
