using System.Globalization;
using TeamCircle.Data.Learners;

namespace TeamCircle.Web.Ui;

/// <summary>How a goal's own terms are said wherever it stands: in the plan, on the learner's page, on its own.</summary>
public static class GoalWords
{
    /// <summary>37.5; at most four decimals.</summary>
    public static string Number(decimal value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>on 3 of the last 4 days, each with at least 8 opportunities, with 2 different adults; null where there is no criterion.</summary>
    public static string? Criterion(GoalTerms terms) => terms is not { CriterionDays: { } days, CriterionOf: { } of } ? null : string.Concat(
        days == of ? $"on {Say.Count(days, "day")} in a row" : $"on {Say.Number(days)} of the last {Say.Count(of, "day")}",
        terms.CriterionFewest is { } fewest ? $", each with at least {(fewest == 1 ? "1 opportunity" : $"{Say.Number(fewest)} opportunities")}" : "",
        terms.CriterionPeople is > 1 and { } people ? $", with {Say.Number(people)} different adults" : "",
        terms.CriterionPlaces is { } places ? $", in {Say.Number(places)} different {(places == 1 ? "place" : "places")}" : "");

    /// <summary>20, seen on 14 September 2026, in her chair; plan, page 4. Null where the plan states no level.</summary>
    public static string? PresentLevel(GoalTerms terms) => terms.Baseline is not { } level ? null : string.Concat(
        Number(level),
        terms.PresentDay is { } day ? $", seen on {Say.Date(day)}" : "",
        terms.PresentConditions is { } conditions ? $", {conditions}" : "",
        terms.PresentSource is { } source ? $"; {source}" : "");
}
