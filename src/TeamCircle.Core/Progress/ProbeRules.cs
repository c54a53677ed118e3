using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Progress;

/// <summary>One probe as somebody enters it.</summary>
/// <param name="Value">In the unit of the goal's measure: percent, responses, prompts, seconds, a count, a rate, a step of the team's scale.</param>
/// <param name="Opportunities">Trials presented; null where nobody counted them.</param>
/// <param name="PaysOn">For a probe that makes up for a missed one: a day of its window.</param>
public sealed record ProbeEntry(
    LocalDate OnDay, decimal Value, int? Opportunities, ProbeKind Kind, Stage? Stage, LocalDate? PaysOn);

/// <summary>What stands when a probe is entered.</summary>
/// <param name="Dates">The goal's first and last day.</param>
/// <param name="Windows">Windows of the goal's probe commitment; null where none is promised.</param>
/// <param name="IsOwner">Whether the person who probed owns the goal on that day.</param>
/// <param name="ProbedThatDay">Whether the same person already has a probe of this goal on that day.</param>
public sealed record ProbeSituation(
    LocalDate Today, Measure Measure, DateRange Dates, PromiseWindows? Windows, bool IsOwner, bool ProbedThatDay);

/// <summary>A probe that can be stored, and what a person should know about it.</summary>
public sealed record ProbeVerdict(ProbeEntry Entry, IReadOnlyList<string> Notices);

/// <summary>What may be recorded as a probe (docs/rules.md, parts 5 and 13).</summary>
public static class ProbeRules
{
    /// <summary>The verdict, or all problems at once.</summary>
    public static Outcome<ProbeVerdict> Check(ProbeEntry entry, ProbeSituation situation)
    {
        Problem[] problems = [.. Problems(entry, situation)];
        return problems.Length > 0
            ? Outcome<ProbeVerdict>.Refused(problems)
            : Outcome<ProbeVerdict>.Of(new(entry, [.. Notices(entry, situation)]));
    }

    /// <summary>Why a value cannot be one of its measure, or null where it can.</summary>
    /// <remarks>The team's own scale has no range of ours; any number stands.</remarks>
    public static string? ValueProblem(Measure measure, decimal value, int? opportunities) => measure switch
    {
        Measure.OwnScale => null,
        _ when value < 0 => "The value cannot be negative.",
        Measure.PercentIndependent when value > 100 => "A percentage lies between 0 and 100.",
        Measure.ResponsesOf or Measure.Count when value != decimal.Truncate(value) => "This goal counts whole responses.",
        Measure.ResponsesOf when value > opportunities => "There cannot be more responses than opportunities.",
        _ => null,
    };

    private static IEnumerable<Problem> Problems(ProbeEntry entry, ProbeSituation situation)
    {
        if (ValueProblem(situation.Measure, entry.Value, entry.Opportunities) is { } value)
            yield return new("Value", value);
        if (entry.Opportunities is < 1)
            yield return new("Opportunities", "At least one opportunity is needed; leave it empty where nobody counted.");
        else if (situation.Measure == Measure.ResponsesOf && entry.Opportunities is null)
            yield return new("Opportunities", "This goal counts responses of so many opportunities. Say how many there were.");
        if (entry.OnDay > situation.Today)
            yield return new("OnDay", "That day is still to come.");
        if (entry.PaysOn is { } day && (situation.Windows is null || situation.Windows.Find(Day.Of(day)) < 0))
            yield return new("PaysOn", "No probe was due around that day. Name a school day of the week, month or period that this makes up for.");
    }

    private static IEnumerable<string> Notices(ProbeEntry entry, ProbeSituation situation)
    {
        if (!situation.Dates.Holds(Day.Of(entry.OnDay)) && entry.PaysOn is null)
            yield return "Outside the dates of the goal: this will not count as a probe that was due.";
        if (entry.Kind == ProbeKind.Teaching)
            yield return "Teaching data: on the chart, but not a probe that was due.";
        else if (!situation.IsOwner)
            yield return "This person does not own the goal on that day: the probe is on record, but not one that was due.";
        else if (situation.ProbedThatDay)
            yield return "There is already a probe of this goal on that day; one a day counts as one that was due.";
    }
}
