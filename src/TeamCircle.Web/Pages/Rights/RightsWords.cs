using TeamCircle.Core.Rights;
using TeamCircle.Data.Rights;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Rights;

/// <summary>What is said about a parent's requests and statements.</summary>
public static class RightsWords
{
    public static string Of(RequestKind kind) => kind == RequestKind.See ? "request to see the record" : "request to amend the record";

    public static string Of(RequestAnswer answer) => answer switch
    {
        RequestAnswer.Shown => "shown and explained",
        RequestAnswer.Copied => "copies given",
        RequestAnswer.Amended => "amended",
        _ => "refused",
    };

    /// <summary>the record as a whole; visit of 14 September, Odalys Ferreira</summary>
    public static string Of(PlaceShown place) => place.Place.About switch
    {
        StatementAbout.Visit => $"Visit of {Say.Date(place.On!.Value)}, {place.About}",
        StatementAbout.Probe => $"Probe of {Say.Date(place.On!.Value)}, {place.About}",
        StatementAbout.Report => $"Progress report, {place.About}",
        _ => "The record as a whole",
    };

    /// <summary>the visit of 14 September 2026; null where the day is not known: a report, the record as a whole.</summary>
    public static string? Beside(StatementShown statement) => statement.On is { } day
        ? $"the {(statement.Place.About == StatementAbout.Visit ? "visit" : "probe")} of {Say.Date(day)}" : null;
}
