using TeamCircle.Core;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>What the two pages that decide have in common: about a service, and about a goal's probes.</summary>
/// <param name="Facts">What lacks, and why.</param>
/// <param name="Input">What was typed.</param>
public sealed record DecideForm(DecidePage Facts, Decide.Input Input)
{
    public bool IsProbes => Facts.Area is not null;

    public string Title => Facts.Area ?? Say.Discipline(Facts.Discipline!.Value);

    public string About => Facts.Owner is { } owner ? $"{Title}, probes by {owner.Name}" : Title;

    public string Amount(int amount) => IsProbes ? Say.Probes(amount) : Say.Minutes(amount);

    /// <summary>week of 14 September</summary>
    public string Window => Say.Window(Facts.Every, Facts.Window!.Window.Days.Start);

    public string Working => IsProbes
        ? $"/audit/goals/{Input.GoalId}" : $"/audit/services/{Input.ServiceId}";

    /// <summary>The message after saving.</summary>
    public static string Done(Decide.Decided decided) => SavedWords.Join("Saved.", decided.Notices);

    /// <summary>Who can decide what alone, in words.</summary>
    public string SecondPerson => (Facts.ExplainedLeft, Facts.HasDirector) switch
    {
        (var left, var director) when left >= Facts.Window!.Minutes.Lack =>
            "Reasons of the child, the family or nobody explain what lacks: one person may record it as not owed.",
        (var left, true) => $"One person alone may decide {Amount(left)} not owed. More lies on the agency's side or is explained by no visit: that takes a director too.",
        (var left, false) => $"One person alone may decide {Amount(left)} not owed. More lies on the agency's side or is explained by no visit: that takes a second person.",
    };
}
