using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>What became of an entry in the ledger.</summary>
public enum Fate
{
    /// <summary>Counts in the window that holds its date.</summary>
    Ordinary,

    /// <summary>A make-up: pays what the window it names still lacked; the rest counts on its own date.</summary>
    MakeUp,

    /// <summary>Counts nowhere: outside the line's dates.</summary>
    OutsideTheDates,

    /// <summary>Counts nowhere: its date lies in no window.</summary>
    InNoWindow,

    /// <summary>Counts nowhere: the line has no school day in its window.</summary>
    NoSchoolDayInWindow,

    /// <summary>Bad input: a make-up for a day in no window with a school day.</summary>
    NamesNoWindow,

    /// <summary>Left out: dated after the as-of day.</summary>
    AfterAsOf,

    /// <summary>Planned before the as-of day and never logged.</summary>
    NeverLogged,

    /// <summary>Planned after the period: counts in no sum of it, but for "planned later".</summary>
    AfterPeriod,
}

/// <summary>Where the amount of an entry went. Windows are indexes into <see cref="PromiseWindows.All"/>.</summary>
public readonly record struct EntryParts
{
    /// <summary>The window of its own date, where something counts there.</summary>
    public int? Own { get; init; }

    /// <summary>What counts in the window of its own date.</summary>
    public int Counted { get; init; }

    /// <summary>For a make-up the window that it names; null for a debt brought by file.</summary>
    public int? Pays { get; init; }

    /// <summary>What a make-up pays to the window that it names.</summary>
    public int Paid { get; init; }

    /// <summary>For a make-up that pays something brought forward: its place in <see cref="LineFacts.Debts"/>.</summary>
    public int? Debt { get; init; }

    /// <summary>What counts nowhere.</summary>
    public int Outside { get; init; }

    /// <summary>The window in which it counts as a session, or null where it is too short or no sessions are promised.</summary>
    public int? SessionOf { get; init; }
}

/// <summary>What became of one entry.</summary>
/// <param name="Index">Its place in the list that was handed in.</param>
public sealed record EntryWorking(int Index, Entry Entry, bool IsPlanned, Fate Fate, EntryParts Parts)
{
    public bool CountsNowhere => Fate is Fate.OutsideTheDates or Fate.InNoWindow or Fate.NoSchoolDayInWindow || Parts.Outside > 0;
}

/// <summary>What became of one decision.</summary>
/// <param name="Window">The window it names; -1 where it is ignored.</param>
/// <param name="Sessions">The sessions it stands for.</param>
public sealed record DecisionWorking(Decision Decision, int Window, int Sessions);

/// <summary>A version's share in what a window owes.</summary>
/// <param name="Days">Active days of the window on which it is in force.</param>
public sealed record VersionDays(PromiseVersion Version, int Days);

/// <summary>How one window was worked out: owed = rounded(sum of quantity times days / divisor).</summary>
/// <param name="Index">Its place in <see cref="PromiseWindows.All"/>.</param>
/// <param name="IsPast">Whether it closed before the as-of day.</param>
/// <param name="Rule">The rule for windows with fewer school days.</param>
/// <param name="Divisor">The days over which a whole promise is spread; 0 where the rule makes the window owe nothing.</param>
/// <param name="Versions">Quantity and days of each version in force in it.</param>
/// <param name="Minutes">Sums in minutes, or in probes.</param>
/// <param name="Sessions">Sums in sessions.</param>
/// <param name="SessionLength">The length of a session in it, or null where no sessions are promised.</param>
public sealed record WindowWorking(
    int Index, Window Window, bool IsPast, ShortWindow Rule, int Divisor, IReadOnlyList<VersionDays> Versions,
    WindowBalance Minutes, WindowBalance Sessions, Ratio? SessionLength);

/// <summary>How the pace of an open window was worked out: the whole up to a day, rounded, less what was decided not owed.</summary>
/// <param name="UpTo">The last day that counts.</param>
/// <param name="Whole">What the active days up to that day come to, before rounding.</param>
/// <param name="Decided">Minutes decided not owed up to that day, as far as they lack.</param>
/// <param name="Given">What was given by the earlier of the period's end and the as-of day.</param>
public sealed record PaceWorking(int UpTo, Ratio Whole, int Decided, int Pace, int Given)
{
    public bool IsOnPace => Given >= Pace;
}

/// <summary>How the space left was worked out: each instructional day's limit less what is taken of it, never below zero.</summary>
/// <param name="Days">The days that are left; an empty range where none is.</param>
/// <param name="Limit">The learner's most minutes a day.</param>
/// <param name="InstructionalDays">How many of the days are instructional.</param>
/// <param name="Taken">Those of them of which something is taken, with the minutes.</param>
public sealed record SpaceWorking(DateRange Days, int Limit, int InstructionalDays, IReadOnlyList<(int Day, int Minutes)> Taken);

/// <summary>How a balance was worked out: every window's sum, every entry and decision in it, and what is to check.</summary>
public sealed class Working
{
    private readonly List<WindowWorking> _closing = [];
    private readonly List<(WindowWorking, PaceWorking)> _open = [];
    private readonly List<WindowWorking> _elsewhere = [];
    private readonly List<DecisionWorking> _decisions = [];
    private readonly SortedDictionary<int, EntryWorking> _given = [];
    private readonly SortedDictionary<int, EntryWorking> _planned = [];

    /// <summary>The answer.</summary>
    public Balance Balance { get; internal set; }

    /// <summary>The promise that was judged.</summary>
    public Promise Promise { get; private set; } = null!;

    /// <summary>All windows of the line, to which the indexes below refer; also those that close in no reporting period.</summary>
    public PromiseWindows Windows { get; private set; } = null!;

    /// <summary>The period, the as-of day and the policies.</summary>
    public Judging At { get; private set; }

    /// <summary>How the space left was worked out, or null where the learner's own time is not used.</summary>
    public SpaceWorking? Space { get; private set; }

    /// <summary>The windows that close in the period, oldest first.</summary>
    public IReadOnlyList<WindowWorking> Closing => _closing;

    /// <summary>The window that is open at the period's end with its pace; at most one.</summary>
    public IReadOnlyList<(WindowWorking Window, PaceWorking Pace)> Open => _open;

    /// <summary>Other windows in which an entry or a decision that was handed in counts.</summary>
    public IReadOnlyList<WindowWorking> Elsewhere => _elsewhere;

    /// <summary>What was given, in the order handed in.</summary>
    public IReadOnlyCollection<EntryWorking> GivenEntries => _given.Values;

    /// <summary>What is planned, in the order handed in.</summary>
    public IReadOnlyCollection<EntryWorking> PlannedEntries => _planned.Values;

    /// <summary>What sealed periods brought forward, in the order handed in.</summary>
    public IReadOnlyList<Debt> Debts { get; private set; } = [];

    /// <summary>The decisions, in the order handed in.</summary>
    public IReadOnlyList<DecisionWorking> Decisions => _decisions;

    internal void Begin(in LineFacts line, in Judging at)
    {
        (Promise, Windows, At, Debts) = (line.Promise, line.Windows, at, line.Debts.ToArray());
        if (line.DailyLimit is not { } limit)
            return;
        var days = Commitments.Space.Days(line, at);
        var taken = new List<(int, int)>();
        for (var day = days.First; day <= days.Last && line.Busy is not null; day++)
        {
            if (line.Busy.On(day) > 0 && line.Windows.SchoolDays.IsInstructional(day))
                taken.Add((day, line.Busy.On(day)));
        }
        Space = new(days, limit, line.Windows.SchoolDays.Instructional(days), taken);
    }

    internal void Given(int index, in Entry entry, Fate fate, EntryParts parts = default) =>
        _given[index] = new(index, entry, false, fate, parts);

    internal void Planned(int index, in Entry entry, Fate fate, EntryParts parts = default) =>
        _planned[index] = new(index, entry, true, fate, parts);

    internal void Decided(in Decision decision, int window, int sessions) => _decisions.Add(new(decision, window, sessions));

    internal void AddClosing(in LineFacts line, in Judging at, int window, in WindowTally tally) =>
        _closing.Add(Describe(line, at, window, tally));

    internal void AddOpen(in LineFacts line, in Judging at, int window, in WindowTally tally, PaceWorking pace) =>
        _open.Add((Describe(line, at, window, tally), pace));

    internal void AddElsewhere(in LineFacts line, in Judging at, ref Posting posting)
    {
        HashSet<int> shown = [.. _closing.Select(w => w.Index), .. _open.Select(w => w.Item1.Index)];
        var touched = _given.Values.Concat(_planned.Values).SelectMany(e => new[] { e.Parts.Own, e.Parts.Pays })
            .Concat(_decisions.Select(d => d.Window < 0 ? null : (int?)d.Window))
            .OfType<int>().Distinct().Order();
        foreach (var window in touched)
        {
            if (shown.Add(window))
                _elsewhere.Add(Describe(line, at, window, posting.Tally(window)));
        }
    }

    private static WindowWorking Describe(in LineFacts line, in Judging at, int index, in WindowTally tally)
    {
        var window = line.Windows.All[index];
        var rule = OwedRule.RuleFor(line.Promise, at.Policies.On(window.Closes));
        var versions = new List<VersionDays>();
        for (var i = 0; i < line.Promise.Versions.Length; i++)
        {
            var days = line.Windows.ActiveDays(index, line.Promise.InForce(i));
            if (days > 0)
                versions.Add(new(line.Promise.Versions[i], days));
        }
        return new(index, window, window.Closes < at.AsOf, rule, OwedRule.Divisor(window, rule), versions,
            tally.Minutes, tally.Sessions, tally.HasLength ? tally.Length : null);
    }
}
