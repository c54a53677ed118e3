using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Calendar;

/// <summary>An agency's school calendar (docs/rules.md, part 1): which days are ordinary, scheduled, instructional.</summary>
/// <remarks>Immutable and safe to share between threads. Counting the days of a range costs the same however long it is.</remarks>
public sealed class SchoolCalendar
{
    private readonly bool[] _ordinary = new bool[7];
    private readonly int[] _ordinaryBefore = new int[7];
    private readonly int _ordinaryAWeek;
    private readonly SchoolDays[] _days;

    /// <param name="weekdays">The ordinary weekdays; repeats do not matter.</param>
    /// <param name="weekStart">The weekday on which a week starts.</param>
    /// <param name="terms">In any order; terms may touch or overlap.</param>
    /// <param name="specialDays">Closures and extra days, in any order.</param>
    /// <exception cref="ArgumentException">A term ends before it starts.</exception>
    public SchoolCalendar(
        IEnumerable<IsoDayOfWeek> weekdays, IsoDayOfWeek weekStart, IEnumerable<Term> terms, IEnumerable<SpecialDay> specialDays)
    {
        foreach (var weekday in weekdays)
            _ordinary[(int)weekday - 1] = true;
        for (var i = 0; i < 7; i++)
        {
            _ordinaryBefore[i] = _ordinaryAWeek;
            _ordinaryAWeek += _ordinary[i] ? 1 : 0;
        }
        WeekStart = weekStart;
        Term[] allTerms = [.. terms.OrderBy(t => t.FirstDay)];
        SpecialDay[] allSpecial = [.. specialDays.OrderBy(d => d.Date)];
        (Terms, SpecialDays) = (allTerms, allSpecial);
        if (allTerms.FirstOrDefault(t => t.LastDay < t.FirstDay) is { } backwards)
            throw new ArgumentException($"The term that starts on {backwards.FirstDay} ends before it starts.", nameof(terms));
        var special = allSpecial.ToLookup(d => Day.Of(d.Date), d => d.Kind);
        _days = [.. Enum.GetValues<LineTerms>().Select(kinds => new SchoolDays(this, allTerms.Where(t => Holds(kinds, t.Kind)), special))];
    }

    /// <summary>The weekday on which a week starts.</summary>
    public IsoDayOfWeek WeekStart { get; }

    /// <summary>The ordinary weekdays, from Monday on.</summary>
    public IEnumerable<IsoDayOfWeek> Weekdays => Enumerable.Range(0, 7).Where(day => _ordinary[day]).Select(day => (IsoDayOfWeek)(day + 1));

    /// <summary>By first day.</summary>
    public IReadOnlyList<Term> Terms { get; }

    /// <summary>Closures and extra days, by date.</summary>
    public IReadOnlyList<SpecialDay> SpecialDays { get; }

    /// <summary>The days as they are for a line that runs in these terms.</summary>
    public SchoolDays For(LineTerms terms) => _days[(int)terms];

    /// <summary>Whether the weekday of this day is an ordinary one, whatever the terms and closures.</summary>
    public bool IsOrdinary(int day) => _ordinary[Day.Weekday(day)];

    /// <summary>How many days of a range are ordinary.</summary>
    public int Ordinary(DateRange range) => range.IsEmpty ? 0 : OrdinaryBefore(range.Last + 1) - OrdinaryBefore(range.First);

    /// <summary>The first day of the week that holds this day.</summary>
    public int StartOfWeek(int day) => day - (Day.Weekday(day) - ((int)WeekStart - 1) + 7) % 7;

    private int OrdinaryBefore(int day) => day / 7 * _ordinaryAWeek + _ordinaryBefore[Day.Weekday(day)];

    private static bool Holds(LineTerms kinds, TermKind kind) => kinds switch
    {
        LineTerms.Regular => kind == TermKind.Regular,
        LineTerms.Extended => kind == TermKind.Extended,
        _ => true,
    };
}
