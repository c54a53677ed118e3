using NodaTime.Text;

namespace TeamCircle.Core.Practice;

/// <summary>The trials under one condition. Null: nobody said which.</summary>
public sealed record WaitGroup(string? Name, WaitCurve Curve);

/// <summary>The trials under one side, position and state.</summary>
public sealed record WaitCell(string? Side, string? Position, string? State, WaitCurve Curve);

/// <summary>The trials by one condition.</summary>
/// <param name="Groups">Those with a name first, the larger ones first.</param>
/// <param name="Test">Over the named groups with enough trials; null where there are not two of them.</param>
public sealed record WaitComparison(IReadOnlyList<WaitGroup> Groups, LogRank? Test);

/// <summary>How long a learner takes to respond, with all that a team compares (docs/rules.md, part 12).</summary>
public sealed class WaitReport
{
    private static readonly LocalDatePattern Month = LocalDatePattern.CreateWithInvariantCulture("uuuu-MM");

    private readonly List<(PractisedTrial Trial, TimedTrial Timed)> _timed;

    /// <param name="trials">Of one routine, or of one goal over all routines.</param>
    /// <param name="waits">Of the newest versions; a step that is gone from them has none.</param>
    /// <param name="lengthened">The last time that a wait was lengthened; null where none was.</param>
    public WaitReport(IReadOnlyList<PractisedTrial> trials, IReadOnlyList<WaitInUse> waits, Lengthened? lengthened)
    {
        _timed = [.. trials.Where(t => t.Timed is not null).Select(t => (t, t.Timed!.Value))];
        Curve = Of(_timed);
        LeftOut = [.. trials.Where(t => t.LeftOut is not null).GroupBy(t => t.LeftOut!.Value).OrderBy(g => g.Key).Select(g => (g.Key, g.Count()))];
        Waits = [.. waits.Select(w => w.Seconds).Distinct().Order()];
        InLastQuarter = waits.Sum(wait => Of(_timed.Where(t => t.Trial.In.Routine == wait.Routine && t.Trial.Step == wait.Step)).InLastQuarterOf(wait.Seconds));
        (Lengthened, AroundLengthening) = (lengthened, lengthened is null ? null : Around(lengthened));
        Cells = FindCells();
        (BySide, ByPosition, ByState) = (Compare(p => p.Side), Compare(p => p.Position), Compare(StateOf));
        (ByPlace, ByMonth) = (Compare(p => p.Place is { } place ? Words.Of(place) : null), InOrder(Compare(p => Month.Format(p.Day))));
        ByPerson = [.. _timed.GroupBy(t => t.Trial.In.Person).OrderByDescending(g => g.Count()).ThenBy(g => g.Key).Select(g => (g.Key, Of(g)))];
    }

    public WaitCurve Curve { get; }

    /// <summary>Trials that are in no curve, by the reason.</summary>
    public IReadOnlyList<(LeftOut Because, int Count)> LeftOut { get; }

    /// <summary>The waits in use in seconds, each once, the shorter first.</summary>
    public IReadOnlyList<int> Waits { get; }

    /// <summary>Responses in the last quarter of their own step's wait in use, or after it.</summary>
    public int InLastQuarter { get; }

    /// <summary>Side by position by state: what was tried together, the larger first.</summary>
    public IReadOnlyList<WaitCell> Cells { get; }

    public WaitComparison BySide { get; }

    public WaitComparison ByPosition { get; }

    public WaitComparison ByState { get; }

    public WaitComparison ByPlace { get; }

    /// <summary>By month, oldest first; the name is such as 2026-09.</summary>
    public WaitComparison ByMonth { get; }

    /// <summary>By who practised, for the team alone; the larger first. There is no test between people.</summary>
    public IReadOnlyList<(int Person, WaitCurve Curve)> ByPerson { get; }

    public Lengthened? Lengthened { get; }

    /// <summary>The curves before and after <see cref="Lengthened"/>, of that routine alone; null where no wait was lengthened.</summary>
    public (WaitCurve Before, WaitCurve After)? AroundLengthening { get; }

    private (WaitCurve Before, WaitCurve After) Around(Lengthened change)
    {
        var own = _timed.Where(t => t.Trial.In.Routine == change.Routine).ToLookup(t => t.Trial.In.Version >= change.Version);
        return (Of(own[false]), Of(own[true]));
    }

    private IReadOnlyList<WaitCell> FindCells() => [.. _timed
        .GroupBy(t => (Side: Key(t.Trial.In.Side), Position: Key(t.Trial.In.Position), t.Trial.In.State))
        .OrderByDescending(g => g.Count()).ThenBy(g => g.Key.Side, StringComparer.Ordinal).ThenBy(g => g.Key.Position, StringComparer.Ordinal).ThenBy(g => g.Key.State)
        .Select(g => new WaitCell(Shown(g.First().Trial.In.Side), Shown(g.First().Trial.In.Position), StateOf(g.First().Trial.In), Of(g)))];

    private static WaitComparison InOrder(WaitComparison months) => months with { Groups = [.. months.Groups.OrderBy(g => g.Name, StringComparer.Ordinal)] };

    private WaitComparison Compare(Func<PractisedOnce, string?> condition)
    {
        // a practice has one condition and many trials
        var names = new Dictionary<PractisedOnce, string?>(ReferenceEqualityComparer.Instance);
        string? NameOf(PractisedOnce practice) => names.TryGetValue(practice, out var name) ? name : names[practice] = Shown(condition(practice));
        var groups = _timed.GroupBy(t => NameOf(t.Trial.In), StringComparer.OrdinalIgnoreCase)
            .Select(g => (Key: g.Key?.ToUpperInvariant(), Name: g.Key, Trials: g.ToList()))
            .OrderBy(g => g.Key is null).ThenByDescending(g => g.Trials.Count).ThenBy(g => g.Key, StringComparer.Ordinal).ToList();
        var tested = groups.Where(g => g.Key is not null && g.Trials.Count >= WaitCurve.Fewest).ToList();
        return new(
            [.. groups.Select(g => new WaitGroup(g.Name, Of(g.Trials)))],
            tested.Count < 2 ? null : LogRank.Of([.. tested.SelectMany(g => g.Trials.Select(t => t.Timed with { Group = g.Key }))]));
    }

    private static WaitCurve Of(IEnumerable<(PractisedTrial Trial, TimedTrial Timed)> trials) => WaitCurve.Of([.. trials.Select(t => t.Timed)]);

    private static string? StateOf(PractisedOnce practice) => practice.State is { } state ? Words.Of(state) : null;

    /// <summary>The team's own words, whether or not they end in a point and begin with a capital.</summary>
    private static string? Key(string? words) => Shown(words)?.ToUpperInvariant();

    private static string? Shown(string? words) => words?.Trim().TrimEnd('.') is { Length: > 0 } said ? said : null;
}
