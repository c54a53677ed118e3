using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Papers;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>Days that bind as a list shows them, under what is said of how near they are.</summary>
/// <param name="Calendar">To count the school days before each; null where only calendar days are said.</param>
/// <param name="MayKeep">Whether the reader may say that one is done, or move it.</param>
/// <param name="IsQuiet">Whether the learner is quiet: then nothing waits for anybody.</param>
public sealed record DateLines(IReadOnlyList<BoundDate> Dates, LocalDate Today, SchoolCalendar? Calendar, bool MayKeep, bool IsQuiet)
{
    public IEnumerable<IGrouping<Nearness, BoundDate>> Groups => Dates.GroupBy(d => BoundDates.Of(d.Due, Today));

    /// <summary>in 24 days, 15 school days before it</summary>
    public string When(BoundDate date) => Calendar is { } calendar && PaperWords.SchoolDays(BoundDates.SchoolDaysBefore(calendar, date.Due, Today)) is { } left
        ? $"{PaperWords.When(date.Due, Today)}, {left}" : PaperWords.When(date.Due, Today);

    /// <summary>Whether it waits for the reader.</summary>
    public bool Waits(BoundDate date) => MayKeep && !IsQuiet && BoundDates.Waits(date, Today);
}
