using TeamCircle.Core.Family;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Family;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>One edition in one language, as the family reads it.</summary>
public sealed record SummaryView(SummaryPage Page, Language Language)
{
    public FamilySentences Words { get; } = new(Language, Page.Child, Page.CaseManager);

    private SummaryDraft Values => new(Words);

    public FamilyTextView Text(Both both) => new(Words, both);

    public FamilyPart Part(Phrase heading, string? note = null) => new(Words, Words.Say(heading, Page.Child), note);

    /// <summary>The checks with their words, oldest first.</summary>
    public IEnumerable<(string Day, string Words)> Checks(SummaryGoal goal) => goal.Points.Select(p => (Words.Dates.Day(p.Day), Values.Value(goal.Measure, p)));

    /// <summary>The checks as a picture in which higher is better; null where there are fewer than two.</summary>
    public static GoalStrip? Picture(SummaryGoal goal)
    {
        if (goal.Points.Count < 2)
            return null;
        var values = goal.Points.Select(p => goal.Better == Better.Down ? -p.Value : p.Value).ToList();
        var points = goal.Points.Zip(values, (p, v) => new StripPoint(p.Day, v, p.Of, ProbeKind.Probe)).ToList();
        return new(points[0].Day, points[^1].Day, values.Min(), values.Max(), null, null, points, "");
    }
}

/// <summary>A text in the reader's language, or as it was written.</summary>
public sealed record FamilyTextView(FamilySentences Words, Both Both);
