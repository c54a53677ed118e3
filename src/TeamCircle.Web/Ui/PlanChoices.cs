using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Ui;

/// <summary>What can be chosen on the pages of settings and of the plan, in the words of the glossary.</summary>
public static class PlanChoices
{
    public static IReadOnlyList<SelectListItem> Disciplines { get; } = Of<Discipline>(Say.Discipline);

    public static IReadOnlyList<SelectListItem> WhoseTime { get; } = Of<ServiceKind>(Say.WhoseTime);

    public static IReadOnlyList<SelectListItem> Places { get; } = Of<Place>(Say.Place);

    public static IReadOnlyList<SelectListItem> Formats { get; } = Of<SessionFormat>(Say.Format);

    public static IReadOnlyList<SelectListItem> Terms { get; } = Of<LineTerms>(Say.Terms);

    public static IReadOnlyList<SelectListItem> Wordings { get; } =
        [new("An amount", ""), .. Of<Wording>(w => $"\"{Words.Of(w)}\": can't be judged as written")];

    public static IReadOnlyList<SelectListItem> CoTreatments { get; } = Of<CoTreatment>(c => c switch
    {
        CoTreatment.None => "no co-treatment",
        CoTreatment.Full => "co-treatment counts in full",
        CoTreatment.Shared => "co-treatment counts by stated minutes",
        _ => "co-treatment counts for the lead only",
    });

    public static IReadOnlyList<SelectListItem> ShortWindows { get; } = Of<ShortWindow>(Say.ShortWindow);

    public static IReadOnlyList<SelectListItem> OwnShortWindows { get; } = [new("As the agency's policy says", ""), .. ShortWindows];

    public static IReadOnlyList<SelectListItem> Surpluses { get; } = Of<Surplus>(Say.Surplus);

    public static IReadOnlyList<SelectListItem> Units { get; } = Of<EveryUnit>(u => u switch
    {
        EveryUnit.Week => "week or weeks",
        EveryUnit.Month => "month or months",
        EveryUnit.Period => "reporting period",
        _ => "plan year",
    });

    public static IReadOnlyList<SelectListItem> Measures { get; } = Of<Measure>(Say.Measure);

    public static IReadOnlyList<SelectListItem> Better { get; } = Of<Better>(b => b == Core.Progress.Better.Up ? "more is better" : "less is better");

    public static IReadOnlyList<SelectListItem> InARow { get; } = [new("Four points", "4"), new("Three points", "3")];

    public static IReadOnlyList<SelectListItem> ByWhom { get; } = [new("By all owners together", "False"), new("By each owner", "True")];

    public static IReadOnlyList<SelectListItem> ClosureKinds { get; } = Of<ClosureKind>(Say.Closure);

    public static IReadOnlyList<SelectListItem> TermKinds { get; } =
        Of<TermKind>(k => k == TermKind.Regular ? "ordinary school year" : "extended school year");

    public static IReadOnlyList<SelectListItem> Relations(Func<Relation, bool> which) =>
        [.. Enum.GetValues<Relation>().Where(which).Select(kind => new SelectListItem(Say.Begin(Say.Relation(kind)), kind.ToString()))];

    /// <summary>People, after an empty choice.</summary>
    public static IReadOnlyList<SelectListItem> People(IEnumerable<NamedId> people, string none = "Choose a person") =>
        [new(none, ""), .. people.Select(p => new SelectListItem(p.Name, p.Id.ToString(CultureInfo.InvariantCulture)))];

    private static SelectListItem[] Of<T>(Func<T, string> words) where T : struct, Enum =>
        [.. Enum.GetValues<T>().Select(code => new SelectListItem(Say.Begin(words(code)), code.ToString()))];
}
