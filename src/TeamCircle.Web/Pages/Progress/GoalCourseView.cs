using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Data.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Progress;

/// <summary>A goal over time as its page shows it, under the conditions that the reader asked for.</summary>
public sealed class GoalCourseView
{
    private readonly Dictionary<int, string> _initials;

    public GoalCourseView(GoalCoursePage goal, ConditionFilter filter)
    {
        (Goal, Filter) = (goal, filter);
        Shown = [.. goal.Live.Where(p => filter.Keeps(p.Point))];
        Standing = GoalStanding.Of(goal.Aims, [.. goal.Live.Select(p => p.Point)], [.. Shown.Select(p => p.Point)]);
        _initials = Initials.Of(goal.Probes.Select(p => p.Provider).DistinctBy(p => p.Id).ToDictionary(p => p.Id, p => p.Name));
    }

    public GoalCoursePage Goal { get; }

    public ConditionFilter Filter { get; }

    /// <summary>The probes that the filter leaves, the latest first.</summary>
    public IReadOnlyList<ProbeOnRecord> Shown { get; }

    public GoalStanding Standing { get; }

    /// <summary>Points and missing probes in one list, the latest first. Under a filter nobody can say what is missing.</summary>
    public IEnumerable<GoalNumber> Numbers => Shown.Select(p => new GoalNumber(p, null))
        .Concat(Filter.AsksForSomething ? [] : Goal.Missing.Select(m => new GoalNumber(null, m))).OrderByDescending(n => n.Day);

    /// <summary>The straight lines of the chart, each from one day to another.</summary>
    public IEnumerable<GoalLine> Lines => GoalLine.Of(Goal, Standing);

    /// <summary>What changed within the goal's dates, with the letter under which the chart shows it.</summary>
    public IEnumerable<(string Letter, GoalChange Change)> Changes => Goal.Changes.Select((c, i) => (Letter(i), c));

    /// <summary>What was out of order on the day of a probe; empty where nothing was.</summary>
    public IEnumerable<string> OutOn(LocalDate day) => Goal.Outages.Where(o => o.Holds(day)).Select(o => $"{o.Name} out of order");

    /// <summary>O; where two people share a letter, both initials: OF. A new person's with a star: O*.</summary>
    public string Initial(ProbeOnRecord probe) => _initials[probe.Provider.Id] + (probe.IsNewPerson ? "*" : "");

    public IReadOnlyList<SelectListItem> States => Goal.Live.Any(p => p.Conditions.State is not null)
        ? [Choices.None("Any state"), new("Quiet or active alert only", "alert")] : [];

    public IReadOnlyList<SelectListItem> Positions => Said("Any position", p => p.Position);

    public IReadOnlyList<SelectListItem> Sides => Said("Any side", p => p.Side);

    public IReadOnlyList<SelectListItem> Places => Said("Any place", p => p.Place);

    /// <summary>What each break cost; those to come are not among them.</summary>
    public IEnumerable<BreakCost> Breaks => Goal.Breaks.Where(b => b.From <= Goal.AsOf)
        .Select(b => Core.Progress.Breaks.Cost(b, Goal.Live.Where(p => p.Kind == Goal.Terms.Counts).Select(p => p.Point), Goal.Terms.Better));

    /// <summary>The next break to come; null where the calendar has none.</summary>
    public SchoolBreak? NextBreak => Goal.Breaks.FirstOrDefault(b => b.From > Goal.AsOf);

    private SelectListItem[] Said(string any, Func<GoalPoint, string?> of) =>
        [Choices.None(any), .. Goal.Live.Select(p => of(p.Point)).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Order().Select(s => new SelectListItem(s, s))];

    /// <summary>a to z, then aa, ab …</summary>
    private static string Letter(int number) => number < 26 ? $"{(char)('a' + number)}" : Letter(number / 26 - 1) + Letter(number % 26);
}

/// <summary>A row of the table: a point, or a window that has none.</summary>
public sealed record GoalNumber(ProbeOnRecord? Probe, MissingProbe? Missing)
{
    public LocalDate Day => Probe?.OnDay ?? Missing!.To;
}
