using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Learners;

/// <summary>The amount that a plan promises, as somebody read it there (docs/rules.md, part 2).</summary>
/// <param name="Quantity">Minutes in each window; of a range its low end.</param>
/// <param name="QuantityTo">The high end of a range.</param>
/// <param name="Sessions">Null: in any number of sessions.</param>
/// <param name="Words">The plan's own words.</param>
/// <param name="Reason">Needed for a range and for an amendment.</param>
public sealed record AmountEntry(
    int? Quantity, int? QuantityTo, int? Sessions, EveryUnit EveryUnit, int EveryCount, string? Words, string? Reason)
{
    public Every Every => new(EveryUnit, EveryCount);
}

/// <summary>What holds for a service line and for its amendments.</summary>
public static class ServiceRules
{
    private const int MostMinutes = 20_000;
    private const int MostWindows = 52;

    /// <summary>Problems of a new line; none where it can be stored.</summary>
    public static IEnumerable<Problem> Check(AmountEntry amount, Wording? wording, LocalDate? from, LocalDate? to, PlanDates plan)
    {
        foreach (var problem in Amount(amount, wording))
            yield return problem;
        if (from is not { } first || !plan.Holds(first))
            yield return new("FromDay", "Give a first day within the plan's dates.");
        if (to is not { } last || !plan.Holds(last))
            yield return new("ToDay", "Give a last day within the plan's dates.");
        else if (last < from)
            yield return new("ToDay", "The last day comes before the first.");
    }

    /// <summary>Problems of an amendment; none where it can be stored.</summary>
    /// <param name="line">The line's dates.</param>
    /// <param name="begins">First days of the line's versions so far.</param>
    /// <param name="continuesAsNew">Whether the kind of window changes, so that the line ends and another goes on.</param>
    public static IEnumerable<Problem> CheckAmendment(
        AmountEntry amount, Wording? wording, LocalDate? from, PlanDates line, IReadOnlyCollection<LocalDate> begins, bool continuesAsNew)
    {
        foreach (var problem in Amount(amount, wording))
            yield return problem;
        if (string.IsNullOrWhiteSpace(amount.Reason) && amount.QuantityTo is null)
            yield return new("Amount.Reason", "Say why the plan is amended.");
        if (from is not { } day || day <= line.StartDay || day > line.EndDay)
            yield return new("FromDay", "Give a day after the service's first day and within its dates.");
        else if (begins.Contains(day))
            yield return new("FromDay", "The service already changes on that day. Take that change back first.");
        else if (continuesAsNew && begins.Any(b => b > day))
            yield return new("FromDay", "The service changes again later. How often it is counted can change only after its last change.");
    }

    /// <summary>Problems of a new last day; none where it can be stored.</summary>
    /// <param name="lastBegin">The first day of the line's last version.</param>
    public static IEnumerable<Problem> CheckEnd(LocalDate? lastDay, LocalDate lastBegin, PlanDates plan, string? reason)
    {
        if (lastDay is not { } day || !plan.Holds(day))
            yield return new("LastDay", "Give a last day within the plan's dates.");
        else if (day < lastBegin)
            yield return new("LastDay", "The service changes after that day. Take that change back first.");
        if (string.IsNullOrWhiteSpace(reason))
            yield return new("Reason", "Say why it ends on another day than first agreed.");
    }

    private static IEnumerable<Problem> Amount(AmountEntry amount, Wording? wording)
    {
        if (amount.Quantity is not (>= 0 and <= MostMinutes) || (amount.Quantity == 0 && wording is null))
            yield return new("Amount.Quantity", "Give whole minutes, one or more.");
        if (amount.QuantityTo is { } most && (most <= amount.Quantity || most > MostMinutes))
            yield return new("Amount.QuantityTo", "The high end of a range is more than its low end.");
        if (amount.QuantityTo is not null && string.IsNullOrWhiteSpace(amount.Reason))
            yield return new("Amount.Reason", "A plan that names a range needs a reason: say why.");
        if (amount.Sessions is { } sessions)
        {
            if (wording is not null)
                yield return new("Amount.Sessions", "Such a wording promises no number of sessions.");
            else if (sessions < 1 || amount.Quantity % sessions != 0)
                yield return new("Amount.Sessions", "Give a number that divides the minutes, or leave it empty for any number of sessions.");
        }
        if (EveryProblem(amount.Every) is { } problem)
            yield return problem with { Field = $"Amount.{problem.Field}" };
        if (string.IsNullOrWhiteSpace(amount.Words))
            yield return new("Amount.PlanWords", "Copy the plan's own words: they stand beside our reading of them.");
    }

    /// <summary>What is wrong with how often something is counted; null where nothing is.</summary>
    public static Problem? EveryProblem(Every every)
    {
        if (every.Count is < 1 or > MostWindows)
            return new("EveryCount", "Give a whole number from 1 to 52.");
        return every is { Count: > 1, Unit: EveryUnit.Period or EveryUnit.PlanYear }
            ? new("EveryCount", "A reporting period and a plan year are counted one by one.")
            : null;
    }
}
