using System.Globalization;
using NodaTime;

namespace TeamCircle.Core.Monitoring;

/// <summary>What is looked at in each file of a sample, in the order of the list.</summary>
public enum FileQuestion
{
    PlanInForce,
    SomebodyAssigned,
    MinutesByService,
    ProbesByGoal,
    DecisionsComplete,
    FamilyTold,
    Signatures,
    LateEntries,
}

public enum FileAnswer
{
    Yes,
    No,
    NotApplicable,
}

/// <summary>A service or probe commitment in the period, as far as it has come.</summary>
/// <param name="Lacking">Minutes or probes that lack so far.</param>
/// <param name="DaysWithoutAnybody">Days of the period on which it ran and nobody was named.</param>
public sealed record FileLine(string Name, bool IsProbes, string Status, int Lacking, int DaysWithoutAnybody);

/// <summary>A decision of the period, by which of its parts are there.</summary>
public sealed record FileDecision(bool IsNotOwed, bool HasReason, bool HasPeople, bool FamilyTold);

/// <summary>What is on record in a file for a period up to a day.</summary>
/// <param name="DaysWithoutPlan">Days of the period up to the day on which no plan was in force.</param>
/// <param name="Signatures">On the period's progress report; null where there is none.</param>
/// <param name="Delays">From the end of each visit to its first entry; those that came in a file are left out.</param>
public sealed record FileFacts(
    int DaysWithoutPlan, IReadOnlyList<FileLine> Lines, IReadOnlyList<FileDecision> Decisions, int? Signatures, IReadOnlyList<Duration> Delays);

/// <summary>A question about a file with what the facts say about it: a proposal, which whoever looks at the file takes or not.</summary>
/// <param name="Found">What is on record, in words.</param>
/// <param name="Proposed">Null where the facts do not answer it.</param>
public sealed record FileCheck(FileQuestion Question, string Found, FileAnswer? Proposed);

/// <summary>The list of questions about a file. They ask; what an answer means is for people to say.</summary>
public static class FileChecks
{
    public const int LongestWord = 500;

    /// <summary>From how many hours on an entry is asked about as late; our number.</summary>
    public const int LateHours = 48;

    /// <summary>The question, as the list asks it.</summary>
    public static string Ask(FileQuestion question) => question switch
    {
        FileQuestion.PlanInForce => "Was a plan in force on every day?",
        FileQuestion.SomebodyAssigned => "Was somebody named for each service on every day it ran?",
        FileQuestion.MinutesByService => "Were the minutes of each service given as far as they were due?",
        FileQuestion.ProbesByGoal => "Were the probes of each goal taken as far as they were due?",
        FileQuestion.DecisionsComplete => "Does each decision say who took part and why?",
        FileQuestion.FamilyTold => "Is it recorded when the family was told of each decision that minutes are not owed?",
        FileQuestion.Signatures => "Is the progress report of the period signed?",
        _ => $"Was each visit entered within {LateHours} hours?",
    };

    /// <summary>All questions in their order.</summary>
    public static IReadOnlyList<FileCheck> Of(FileFacts facts) => [.. Enum.GetValues<FileQuestion>().Select(q => Check(q, facts))];

    private static FileCheck Check(FileQuestion question, FileFacts facts) => question switch
    {
        FileQuestion.PlanInForce => new(question, facts.DaysWithoutPlan == 0 ? "On every day so far" : $"{Count(facts.DaysWithoutPlan, "day")} without one", YesIf(facts.DaysWithoutPlan == 0)),
        FileQuestion.SomebodyAssigned => Named(facts.Lines.Where(l => !l.IsProbes).ToList()),
        FileQuestion.MinutesByService => Given(question, facts.Lines.Where(l => !l.IsProbes).ToList(), "No service ran"),
        FileQuestion.ProbesByGoal => Given(question, facts.Lines.Where(l => l.IsProbes).ToList(), "No goal asks for probes"),
        FileQuestion.DecisionsComplete => Share(question, facts.Decisions, d => d.HasPeople && d.HasReason, "Nothing was decided"),
        FileQuestion.FamilyTold => Share(question, [.. facts.Decisions.Where(d => d.IsNotOwed)], d => d.FamilyTold, "Nothing was decided not owed"),
        FileQuestion.Signatures => facts.Signatures is { } signed
            ? new(question, Count(signed, "signature"), YesIf(signed > 0))
            : new(question, "No report has been begun", FileAnswer.NotApplicable),
        _ => Late(facts.Delays),
    };

    private static FileCheck Named(List<FileLine> services)
    {
        List<FileLine> vacant = [.. services.Where(s => s.DaysWithoutAnybody > 0)];
        return services.Count == 0 ? new(FileQuestion.SomebodyAssigned, "No service ran", FileAnswer.NotApplicable)
            : new(FileQuestion.SomebodyAssigned, vacant.Count == 0 ? $"Each of {Count(services.Count, "service")}"
                : string.Join("; ", vacant.Select(s => $"{s.Name}: nobody on {Count(s.DaysWithoutAnybody, "day")}")), YesIf(vacant.Count == 0));
    }

    private static FileCheck Given(FileQuestion question, List<FileLine> lines, string none) => lines.Count == 0
        ? new(question, none, FileAnswer.NotApplicable)
        : new(question, string.Join("; ", lines.Select(l => $"{l.Name}: {l.Status}{(l.Lacking > 0 ? $", {Number(l.Lacking)} lacking so far" : "")}")), YesIf(lines.TrueForAll(l => l.Lacking == 0)));

    private static FileCheck Share(FileQuestion question, IReadOnlyList<FileDecision> decisions, Func<FileDecision, bool> isGood, string none)
    {
        var good = decisions.Count(isGood);
        return decisions.Count == 0 ? new(question, none, FileAnswer.NotApplicable) : new(question, $"{Number(good)} of {Count(decisions.Count, "decision")}", YesIf(good == decisions.Count));
    }

    private static FileCheck Late(IReadOnlyList<Duration> delays)
    {
        var late = delays.Count(d => d > Duration.FromHours(LateHours));
        return delays.Count == 0
            ? new(FileQuestion.LateEntries, "Nothing was entered by hand", FileAnswer.NotApplicable)
            : new(FileQuestion.LateEntries, $"{Number(late)} of {Count(delays.Count, "first entry", "first entries")} came later", YesIf(late == 0));
    }

    private static FileAnswer YesIf(bool holds) => holds ? FileAnswer.Yes : FileAnswer.No;

    private static string Count(int count, string one, string? many = null) => $"{Number(count)} {(count == 1 ? one : many ?? one + "s")}";

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
