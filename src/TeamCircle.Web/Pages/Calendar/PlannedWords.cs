using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>How a visit in the calendar is said.</summary>
public static class PlannedWords
{
    /// <summary>Wren Belmares, Vision with Odalys Ferreira, Tuesday 13 October, 9:00 to 9:45 am</summary>
    public static string Of(VisitFacts visit) =>
        $"{visit.Learner}, {Say.Visit(visit.Kind, visit.Discipline)} with {visit.Provider.Name}, {Say.Weekday(visit.OnDay)}, {Times(visit)}";

    public static string Times(VisitFacts visit) => Say.Times(visit.Start, visit.Start.PlusMinutes(visit.Minutes));

    /// <summary>no school that day: Snow; 25 minutes from H1 to S2, and 10 there are</summary>
    public static string Matter(VisitCheck check) => check.Way is { } way
        ? $"the way from {way.From} to {way.To} takes {Say.Minutes(way.Needs)}, and there are {Say.Number(way.Has)}"
        : $"no school that day: {check.ClosedBy}";

    /// <summary>in hospital, from 5 October until 16 October; or until further notice</summary>
    public static string Of(AwayFacts away) => Away(away.Reason, away.FromDay, away.UntilDay);

    public static string Away(AwayReason reason, NodaTime.LocalDate from, NodaTime.LocalDate? until) => until == from
        ? $"{Say.Away(reason)}, on {Say.Day(from)}"
        : $"{Say.Away(reason)}, from {Say.Day(from)} until {(until is { } last ? Say.Day(last) : "further notice")}";
}
