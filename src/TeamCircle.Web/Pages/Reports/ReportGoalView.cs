using TeamCircle.Core.Reports;
using TeamCircle.Data.Reports;

namespace TeamCircle.Web.Pages.Reports;

/// <summary>One goal on the page of its report.</summary>
public sealed record ReportGoalView(ReportPage Report, ReportGoal Goal)
{
    /// <summary>Whether the reader can still write about it.</summary>
    public bool MayWrite => Goal.MayWrite && Report.State == ReportState.Open;

    public string Address => $"/reports/{Report.Id}/goals/{Goal.Said.Goal}";
}
