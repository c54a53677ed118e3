using System.Globalization;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>A window's sums in words and numbers: how what it owes came about, and what became of it.</summary>
public sealed class WindowSums(Working working, WindowWorking window, bool isProbes)
{
    private int Count => window.Window.Base;

    /// <summary>How many school days it has, and on how many of them the line runs.</summary>
    public string Days
    {
        get
        {
            var days = window.Window;
            var words = Say.Count(days.ScheduledDays, "school day");
            if (days.ActiveDays != days.ScheduledDays)
                words += $", {(isProbes ? "asked for" : "running")} on {days.ActiveDays} of them ({Say.Dates(days.Active.Start, days.Active.End)})";
            if (days.ExpectedDays > 0)
                words += $"; {days.ExpectedDays} of them lie beyond the calendar: expected, not known";
            return words;
        }
    }

    /// <summary>What is owed: the quantity of each version times its days, divided by the days of a whole promise, rounded once.</summary>
    public IEnumerable<string> Owed
    {
        get
        {
            if (working.Promise.Wording is { } wording)
            {
                yield return $"{Say.Begin(Say.Wording(wording))}: nothing is counted as owed.";
                yield break;
            }
            if (window.Divisor == 0)
            {
                yield return $"Only {window.Window.Base} of {Say.Count(window.Window.OrdinaryDays, "ordinary day")} count, fewer than half: nothing is owed.";
                yield break;
            }
            yield return Sum(v => v.Quantity, Amount, window.Minutes.Owed);
            if (working.Promise.HasSessions)
                yield return Sum(v => v.Sessions, Say.Sessions, window.Sessions.Owed);
            if (Divided is { } why)
                yield return why;
        }
    }

    /// <summary>Owed, decided not owed, due, given, and what lacks or is beyond the plan.</summary>
    public string Balance => Chain(window.Minutes, Amount, window.IsPast);

    /// <summary>The same in sessions; null where none are promised.</summary>
    public string? SessionBalance => working.Promise.HasSessions ? Chain(window.Sessions, Say.Sessions, window.IsPast) : null;

    /// <summary>From how many minutes on a visit counts as a session here; null where no sessions are promised.</summary>
    public string? SessionRule => window.SessionLength is { Over: var over } length && over > 0
        ? $"A visit counts as a session from {Number(Share(length))} minutes on{(Policy.SessionShare == 100 ? "" : $" ({Policy.SessionShare} % of a session of {Number(length)} minutes)")}."
        : null;

    private Policy Policy => working.At.Policies.On(window.Window.Closes);

    private Ratio Share(Ratio length) => new(length.Over * Policy.SessionShare, length.Under * 100);

    private string? Divided => window.Divisor == window.Window.ScheduledDays ? null
        : window.Divisor == Count
            ? $"The promise is spread over {Count} days: {Say.Count(window.Window.ScheduledDays, "school day")} and the ordinary days outside the terms, so that a term that ends here counts like a service that does."
            : $"By the rule for fewer school days ({Say.ShortWindow(window.Rule)}) the promise is spread over all {window.Divisor} ordinary days.";

    private string Sum(Func<PromiseVersion, int> pick, Func<int, string> unit, int owed)
    {
        var parts = window.Versions.Select(v => $"{Say.Number(pick(v.Version))} × {Say.Count(v.Days, "day")}").ToList();
        var over = window.Versions.Sum(v => (long)pick(v.Version) * v.Days);
        var sum = parts.Count == 1 ? parts[0] : $"({string.Join(" + ", parts)})";
        var exact = over % window.Divisor == 0 ? "" : $" = {Number(new Ratio(over, window.Divisor))}, rounded";
        return $"{sum} ÷ {Say.Count(window.Divisor, "day")}{exact} = {unit(owed)} owed";
    }

    private static string Chain(WindowBalance sums, Func<int, string> unit, bool isPast)
    {
        var words = sums.NotOwed > 0 ? $"{Say.Number(sums.Owed)} owed − {Say.Number(sums.NotOwed)} decided not owed = {unit(sums.Due)} due" : $"{unit(sums.Due)} due";
        words += $"; {Say.Number(sums.Given)} given";
        if (sums.Paid > 0)
            words += $" ({Say.Number(sums.Paid)} of them by make-ups)";
        if (sums.Lack > 0)
            words += $"; {Say.Number(sums.Due)} − {Say.Number(sums.Given)} = {unit(sums.Lack)} {(isPast ? "not given" : "not yet given")}";
        if (sums.Surplus > 0)
            words += $"; {unit(sums.Surplus)} beyond the plan";
        if (sums.Lack > 0 && sums.Planned > 0)
            words += sums.Short == 0 ? ", all of it planned" : $", {Say.Number(sums.Lack - sums.Short)} of it planned";
        return words;
    }

    private string Amount(int count) => isProbes ? Say.Probes(count) : Say.Minutes(count);

    private static string Number(Ratio ratio) => ((double)ratio.Over / (double)ratio.Under).ToString("0.##", CultureInfo.InvariantCulture);
}
