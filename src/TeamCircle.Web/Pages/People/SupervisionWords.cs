using NodaTime;
using TeamCircle.Data.People;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>Where a supervision stands, in words.</summary>
public static class SupervisionWords
{
    /// <summary>One visit every 2 weeks; the next is due by 16 October. 1 before it was missed, the last on 2 October.</summary>
    public static string Of(SupervisedAssistant assistant, LocalDate today)
    {
        if (assistant.Promise is not { } promise)
            return "Nobody has said how often they are watched";
        var often = promise.Every.Count == 1 ? $"One visit a {Unit(promise.Every)}" : $"One visit every {Say.Count(promise.Every.Count, Unit(promise.Every))}";
        if (promise.From > today)
            return $"{often}, from {Say.Date(promise.From)} on";
        if (assistant.Standing is not { } standing)
            return often;
        var next = standing.DueBy is { } due ? $"; {(standing.IsOverdue ? "overdue, and " : "")}the next is due by {Say.Day(due)}"
            : standing.Current is { } now ? $"; held until {Say.Day(now.Last)}" : "";
        return standing.Missed.Count == 0 ? $"{often}{next}" : $"{often}{next}; {Say.Count(standing.Missed.Count, "window")} went by without one";
    }

    private static string Unit(Core.Time.Every every) => Core.Words.Of(every.Unit);
}
