using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>The rail of an example, as the caseload draws that of a service.</summary>
internal static class GuideRail
{
    public static Rail Of(Working working) => new(
        working.At.Period.Start, working.At.Period.End, Day.Date(working.At.AsOf), "minutes",
        [.. working.Closing.Select((w, i) => new RailCell(
            $"week {Say.Number(i + 1)}", w.Window.Days.Start, w.Window.Days.End, w.Minutes.Owed, w.Minutes.NotOwed, w.Minutes.Given, w.Minutes.Paid, w.Minutes.Planned))]);
}
