using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Retention;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Retention;

/// <summary>What is said about keeping and destroying parts of a record.</summary>
public static class RetentionWords
{
    public static IEnumerable<SelectListItem> Kinds => Enum.GetValues<RecordKind>().Select(k => new SelectListItem(Of(k), $"{k}"));

    public static IEnumerable<SelectListItem> Counted => Enum.GetValues<CountedFrom>().Select(f => new SelectListItem(Say.Begin(Of(f)), $"{f}"));

    public static string Of(RecordKind kind) => kind switch
    {
        RecordKind.Notes => "Notes of visits",
        RecordKind.Practice => "Practices and trials",
        RecordKind.Probes => "Probes",
        RecordKind.Reports => "Progress reports",
        RecordKind.Pictures => "Pictures on cards",
        _ => "Summaries and the family's words",
    };

    /// <summary>What of it stays when it is destroyed.</summary>
    public static string Remains(RecordKind kind) => kind switch
    {
        RecordKind.Notes => "Day, times, minutes and who came stay.",
        RecordKind.Practice => "The visit stays, and probes that came from a practice.",
        RecordKind.Probes => "Goals stay, and what closed counts say of them.",
        RecordKind.Reports => "Goals and statements stay.",
        RecordKind.Pictures => "The card's words stay.",
        _ => "Requests and statements about the record stay.",
    };

    public static string Of(CountedFrom from) => from == CountedFrom.LearnerLeft ? "the learner's last day here" : "the day of each entry";

    /// <summary>7 years after the learner's last day here; the family has 60 days</summary>
    public static string Of(RetentionRule rule) => rule.Years is { } years
        ? $"{Say.Count(years, "year")} after {Of(rule.From!.Value)}; the family has {Say.Count(rule.NoticeDays, "day")}" : "Kept, without end";

    public static string Of(DestructionStage stage) => stage switch
    {
        DestructionStage.Proposed => "The family is to be told",
        DestructionStage.Waits => "The family has its days",
        DestructionStage.Ready => "A director may agree",
        DestructionStage.Agreed => "A second person destroys",
        DestructionStage.Destroyed => "Destroyed",
        _ => "Stopped",
    };

    /// <summary>Why: the family asked, or which rule.</summary>
    public static string Why(DestructionShown d) => d.AskedBy is { } who ? $"{who} asked for it on {Say.Date(d.AskedOn!.Value)}." : $"Rule: {d.Rule}";
}
