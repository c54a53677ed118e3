using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>A file's facts in words for an outside reviewer.</summary>
internal static class ReviewWords
{
    /// <summary>The amount in force on a day.</summary>
    public static AmountView Amount(ServiceInPlan service, LocalDate day) => service.Amounts.LastOrDefault(a => a.FromDay <= day) ?? service.Amounts[0];

    public static string Promise(ServiceInPlan service, LocalDate day)
    {
        var amount = Amount(service, day);
        return Say.Promise(amount.Quantity, amount.QuantityTo, amount.Sessions, service.Every);
    }

    /// <summary>Who was named on the day, each with discipline and credential.</summary>
    public static string Named(ServiceInPlan service, ReviewFile file, LocalDate day)
    {
        List<string> named = [.. service.AssignedOn(day).Select(a => $"{a.Person} ({Qualified(file, a.PersonId)}), {Say.Dates(a.FromDay, a.ToDay)}")];
        return named.Count == 0 ? "Nobody was named on this day" : string.Join("; ", named);
    }

    public static string Name(ReviewFile file, int person) => file.Qualified.TryGetValue(person, out var known) ? known.Name : "somebody of the agency";

    /// <summary>On course: 120 minutes given of 150 due so far.</summary>
    public static string Standing(StandingLine standing)
    {
        var sums = standing.Balance.Minutes;
        return $"{Say.Begin(Say.Status(standing.Balance))}: {StandingWords.Amount(standing, sums.GivenSoFar)} given of {Say.Number(sums.DueSoFar)} due so far in the reporting period";
    }

    /// <summary>The windows that have begun by the day.</summary>
    public static IEnumerable<WindowWorking> Windows(StandingLine standing, LocalDate day) => standing.Windows.Where(w => w.Window.Days.First <= Day.Of(day));

    public static string Target(GoalInPlan goal) => goal.Target is { } target
        ? $"Target {target.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture)}{(goal.TargetDay is { } by ? $" by {Say.Date(by)}" : "")} ({Say.Measure(goal.Terms.Measure)})"
        : "No target is set";

    public static string Owners(GoalInPlan goal, LocalDate day)
    {
        List<string> owners = [.. goal.Owners.Where(o => o.FromDay <= day && day <= o.ToDay).Select(o => o.Person)];
        return owners.Count == 0 ? "Nobody owned it on this day" : $"Owned by {Say.List(owners)}";
    }

    /// <summary>30 minutes of TF07-OT: make up</summary>
    public static string Decided(ReviewedDecision decision) =>
        $"{(decision.IsProbes ? Say.Probes(decision.Amount) : Say.Minutes(decision.Amount))} of {decision.About}: {Say.Decision(decision.Kind)}";

    /// <summary>When, by whom, and when the family was told.</summary>
    public static string Parts(ReviewedDecision decision, ReviewFile file) =>
        $"Decided on {Say.Date(decision.DecidedOn)} by {Say.List([.. decision.DecidedBy.Select(p => Name(file, p))])}; "
        + (decision.FamilyToldOn is { } told ? $"the family was told on {Say.Date(told)}" : "nobody recorded that the family was told");

    private static string Qualified(ReviewFile file, int person) => !file.Qualified.TryGetValue(person, out var known) ? "not on the team"
        : Say.List([.. known.Disciplines.Select(Say.Profession), .. known.Credential is { } credential ? [credential] : Array.Empty<string>()]) is { Length: > 0 } words ? words : "no discipline recorded";
}
