using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Pages.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>How a visit is said on its pages.</summary>
public static class VisitWords
{
    /// <summary>scheduled 9:00 to 9:45 am</summary>
    public static string Planned(VisitPage visit) => visit.Planned is { } planned
        ? $"scheduled {Say.Times(planned.Start, planned.Start.PlusMinutes(planned.Minutes))}" : "that nobody had scheduled";

    /// <summary>For the script that hides what does not apply: 09:45; null where nothing was scheduled.</summary>
    public static string? PlannedEnd(VisitPage visit) =>
        visit.Planned is { } planned ? planned.Start.PlusMinutes(planned.Minutes).ToString("HH:mm", null) : null;

    public static string MakesUp(LocalDate? paysOn) => paysOn is { } day ? $", to make up for what was owed around {Say.Date(day)}" : "";

    /// <summary>What is said of a visit for an award of compensatory services.</summary>
    public static string For(AwardChoice? award) => award is null ? "" : $", for compensatory services ({AwardWords.Of(award)}): it counts for nothing else";

    /// <summary>by Priya Lindqvist on 5 October 2026, 4:10 pm; not countersigned yet by Priya Lindqvist, who supervised</summary>
    public static string Of(Countersigning entry)
    {
        if (entry is { By: { } by, At: { } at })
            return $"by {by.Name} on {Say.Date(at.Date)}, {Say.Time(at.TimeOfDay)}{(by.Id == entry.SupervisorId ? "" : $", as the case manager: {entry.Supervisor}, who supervised, had left the team")}";
        return $"not countersigned yet by {entry.Supervisor}, who supervised{(entry.SentBack is { } why ? $"; sent back: {why}" : "")}";
    }

    /// <summary>warm-up 5 minutes, transfers 10 minutes and rest 5 minutes</summary>
    public static string Filled(IReadOnlyList<Filled> filled) => Say.List([.. filled.Select(f => $"{Words.Of(f.Kind)} {Say.Minutes(f.Minutes)}")]);
}
