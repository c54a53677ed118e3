using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>What is said about days that bind, packs for meetings, an extended school year and papers that went out.</summary>
public static class PaperWords
{
    public static string Of(BoundKind kind) => kind switch
    {
        BoundKind.AnnualReview => "annual review of the plan",
        BoundKind.Reevaluation => "re-evaluation",
        BoundKind.VisionEvaluation => "functional vision evaluation",
        BoundKind.MediaEvaluation => "learning-media evaluation",
        BoundKind.ExtendedYear => "decision on an extended school year",
        BoundKind.Report => "progress report to the parents",
        BoundKind.Orders => "orders for therapy",
        BoundKind.HealthPlan => "health and seizure plan",
        BoundKind.Consent => "consent",
        BoundKind.Trial => "decision on a trial",
        BoundKind.Licence => "last day of a licence",
        BoundKind.Pack => "the family has the pack for a meeting",
        BoundKind.RoutineReview => "review of a routine",
        _ => "something else",
    };

    public static string Of(Nearness near) => near switch
    {
        Nearness.Overdue => "Overdue",
        Nearness.Within30 => "In the next 30 days",
        Nearness.Within60 => "In 31 to 60 days",
        Nearness.Within90 => "In 61 to 90 days",
        _ => "Later",
    };

    /// <summary>today; tomorrow; in 24 days; overdue since 2 November, 24 days</summary>
    public static string When(LocalDate due, LocalDate today) => BoundDates.DaysUntil(due, today) switch
    {
        0 => "today",
        1 => "tomorrow",
        > 1 and var days => $"in {Say.Number(days)} days",
        var days => $"overdue since {Say.Day(due)}, {Say.Count(-days, "day")}",
    };

    /// <summary>15 school days before it; null where none is left or the calendar does not reach that far.</summary>
    public static string? SchoolDays(int? days) => days is > 0 and { } left ? $"{Say.Count(left, "school day")} before it" : null;

    /// <summary>What the day rests on: what people wrote, or the part of the record that knows it.</summary>
    public static string RestsOn(BoundDate date) => date switch
    {
        { IsKept: true } => date.About ?? "",
        { Kind: BoundKind.AnnualReview } => "the plan's dates, and never more than a year",
        { Kind: BoundKind.Licence } => date.About ?? "",
        { Kind: BoundKind.Pack } => $"the meeting: {date.About}",
        { Kind: BoundKind.RoutineReview } => $"{date.About}: its review holds until then",
        { Kind: BoundKind.Report } => $"{date.About}, and {BoundDates.ReportDays} days for writing it",
        _ => "the day that was set for it",
    };

    /// <summary>Where it is done; null for what people keep themselves, which has a page of its own.</summary>
    public static string? Place(BoundDate date) => date.Kind switch
    {
        _ when date.IsKept => null,
        BoundKind.AnnualReview => $"/learners/{date.Learner}/plan",
        BoundKind.Licence => $"/learners/{date.Learner}/team",
        BoundKind.Pack => $"/learners/{date.Learner}/meeting-pack/{date.Paper}",
        BoundKind.RoutineReview => $"/routines/{date.Paper}",
        BoundKind.Report => date.Paper is { } report ? $"/reports/{report}" : $"/learners/{date.Learner}/reports",
        _ => $"/learners/{date.Learner}/extended-year",
    };

    /// <summary>again every year; again every 18 months</summary>
    public static string Again(int months) => months switch
    {
        12 => "again every year",
        _ when months % 12 == 0 => $"again every {Say.Number(months / 12)} years",
        _ => $"again every {Say.Count(months, "month")}",
    };

    public static IReadOnlyList<SelectListItem> Kinds { get; } = [new("Choose", ""), .. BoundDates.Kept.Select(k => new SelectListItem(Say.Begin(Of(k)), $"{k}"))];

    public static string Of(PaperKind paper) => paper switch
    {
        PaperKind.Report => "progress report",
        PaperKind.Statement => "statement",
        PaperKind.MeetingPack => "pack for a meeting",
        PaperKind.Evaluation => "evaluation",
        _ => "prior written notice",
    };

    public static string Of(DeliveryWay way) => way switch
    {
        DeliveryWay.Handed => "handed over",
        DeliveryWay.Post => "by post",
        DeliveryWay.Mail => "by mail",
        _ => "in the portal",
    };

    public static IReadOnlyList<SelectListItem> Ways { get; } = [.. Enum.GetValues<DeliveryWay>().Select(w => new SelectListItem(Say.Begin(Of(w)), $"{w}"))];

    /// <summary>Where the portal has the paper itself; null for what it does not have.</summary>
    public static string? Address(PaperShown paper, int learner) => paper.Place.Kind switch
    {
        PaperKind.Report => $"/reports/{paper.Place.Id}",
        PaperKind.MeetingPack => $"/learners/{learner}/meeting-pack/{paper.Place.Id}",
        PaperKind.Statement => $"/learners/{learner}/close",
        _ => null,
    };

    public static string Of(DeliveryState state) => state switch
    {
        DeliveryState.NotYet => "not sent yet",
        DeliveryState.Overdue => "not sent, and overdue",
        DeliveryState.Sent => "sent",
        DeliveryState.SentLate => "sent after its day",
        _ => "came back: to be sent again",
    };

    public static string Of(ExtendedYearAnswer answer) => answer == ExtendedYearAnswer.Needed ? "needed" : "not needed";
}
