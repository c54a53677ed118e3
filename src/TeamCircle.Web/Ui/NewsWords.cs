using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;

namespace TeamCircle.Web.Ui;

/// <summary>How news about a learner is said, and where each leads.</summary>
public static class NewsWords
{
    public static string Of(NewsItem item) => item.Kind switch
    {
        NewsKind.Probes => $"{item.What}: {Say.Count(item.Count, "new point")}",
        NewsKind.Practices => $"{item.What} practised {(item.Count == 1 ? "once" : $"{Say.Number(item.Count)} times")}",
        NewsKind.Version => $"Version {Say.Number(item.Count)} of {item.What}",
        NewsKind.HoldSet => $"A hold: {item.What}",
        NewsKind.HoldEnded => $"A hold ended: {item.What}",
        NewsKind.Amendment => $"The plan changed: {Say.Discipline(Enum.Parse<Discipline>(item.What))}",
        NewsKind.NewGoal => $"A new goal: {item.What}",
        NewsKind.TeachPart => $"How we teach, rewritten: {Say.Within(Say.Part(Enum.Parse<TeachPart>(item.What)))}",
        _ => item.What,
    };

    public static string Address(NewsItem item) => item.Kind switch
    {
        NewsKind.Probes or NewsKind.NewGoal => $"/goals/{item.About}",
        NewsKind.GoalChange => $"/goals/{item.About}/changes",
        NewsKind.Practices => $"/routines/{item.About}",
        NewsKind.Version => $"/routines/{item.About}/versions",
        NewsKind.HoldSet or NewsKind.HoldEnded => $"/learners/{item.About}/holds",
        NewsKind.Amendment => $"/learners/{item.About}/plan",
        _ => $"/learners/{item.About}#teach",
    };
}
