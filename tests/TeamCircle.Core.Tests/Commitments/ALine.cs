using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>A line of 60 minutes a week in one school year, from 17 August 2026, with four reporting periods.</summary>
internal sealed record ALine
{
    public static readonly LocalDate Start = new(2026, 8, 17);
    public static readonly DateRange FirstPeriod = DateRange.Of(Start, new(2026, 10, 16));
    public static readonly DateRange Year = DateRange.Of(Start, new(2027, 5, 28));
    private static readonly DateRange[] AllPeriods =
    [
        FirstPeriod, DateRange.Of(new(2026, 10, 19), new(2026, 12, 18)),
        DateRange.Of(new(2027, 1, 4), new(2027, 3, 5)), DateRange.Of(new(2027, 3, 8), new(2027, 5, 28)),
    ];

    private readonly List<Entry> _given = [];
    private readonly List<Entry> _planned = [];
    private readonly List<Decision> _decisions = [];

    public Promise Promise { get; init; } = new(new(EveryUnit.Week, 1), Year, new PromiseVersion(Year.First, 60));
    public Policies Policies { get; init; } = new(Policy.Default);
    public DateRange Period { get; init; } = FirstPeriod;
    public LocalDate AsOf { get; init; } = new(2026, 10, 20);
    public int? DailyLimit { get; init; }
    public SpecialDay[] Special { get; init; } = [];
    public Debt[] Debts { get; init; } = [];

    public SchoolCalendar Calendar => new(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
        IsoDayOfWeek.Monday, [new(Start, Year.End, TermKind.Regular)], Special);

    public PromiseWindows Windows => new WindowCatalog(Calendar, AllPeriods).Of(Promise, Year);

    public ALine Given(int month, int day, int minutes, LocalDate? pays = null)
    {
        _given.Add(new(Day.Of(new(2026, month, day)), minutes, pays is { } paid ? Day.Of(paid) : Day.None));
        return this;
    }

    public ALine GivenEveryWeek(LocalDate from, int weeks, int minutes = 60)
    {
        for (var week = 0; week < weeks; week++)
            _given.Add(new(Day.Of(from.PlusWeeks(week)), minutes));
        return this;
    }

    public ALine PlannedVisit(int month, int day, int minutes, LocalDate? pays = null)
    {
        _planned.Add(new(Day.Of(new(2026, month, day)), minutes, pays is { } paid ? Day.Of(paid) : Day.None));
        return this;
    }

    public ALine Decided(int month, int day, int minutes, DecisionKind kind)
    {
        _decisions.Add(new(Day.Of(new(2026, month, day)), minutes, Decision.ByLength, kind));
        return this;
    }

    public Working WorkOut(params DateRange[] named)
    {
        var facts = new LineFacts
        {
            Promise = Promise,
            Windows = Windows,
            Given = _given.ToArray(),
            Planned = _planned.ToArray(),
            Decisions = _decisions.ToArray(),
            Debts = Debts,
            DailyLimit = DailyLimit,
        };
        return Ledger.Explain(facts, new Judging(Period, Day.Of(AsOf), Policies), named);
    }

    public static DateRange Days(int fromMonth, int fromDay, int toMonth, int toDay) =>
        DateRange.Of(new(2026, fromMonth, fromDay), new(2026, toMonth, toDay));
}
