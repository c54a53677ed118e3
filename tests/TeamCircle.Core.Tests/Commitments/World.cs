using CsCheck;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>A whole case in plain dates, from which both the ledger's input and the naive recount are made.</summary>
internal sealed record World
{
    public required IsoDayOfWeek[] Weekdays { get; init; }
    public required IsoDayOfWeek WeekStart { get; init; }
    public required Term[] Terms { get; init; }
    public required SpecialDay[] Special { get; init; }
    public required (LocalDate Start, LocalDate End)[] Periods { get; init; }
    public required (LocalDate Start, LocalDate End) Period { get; init; }
    public required (LocalDate Start, LocalDate End) Plan { get; init; }
    public required Every Every { get; init; }
    public required LocalDate From { get; init; }
    public required LocalDate To { get; init; }
    public required (LocalDate From, int Quantity, int Sessions)[] Versions { get; init; }
    public required LineTerms LineTerms { get; init; }
    public required ShortWindow? LineRule { get; init; }
    public required Policy Policy { get; init; }
    public required (LocalDate Date, int Amount, LocalDate? Pays)[] Given { get; init; }
    public required (LocalDate Date, int Amount, int? Sessions, DecisionKind As)[] Decisions { get; init; }
    public required (LocalDate Date, int Amount, LocalDate? Pays)[] Planned { get; init; }
    public required (LocalDate Date, int Amount)[] OtherBusy { get; init; }
    public required LocalDate AsOf { get; init; }
    public required int? DailyLimit { get; init; }

    public bool HasSessions => Versions.Any(v => v.Sessions > 0);

    public SchoolCalendar Calendar => new(Weekdays, WeekStart, Terms, Special);

    public CommitmentCase Case() => new()
    {
        Calendar = Calendar,
        Periods = [.. Periods.Select(Range)],
        Period = Range(Period),
        Plan = Range(Plan),
        Promise = new(Every, DateRange.Of(From, To), [.. Versions.Select(v => new PromiseVersion(Day.Of(v.From), v.Quantity, v.Sessions))])
        {
            Terms = LineTerms,
            ShortWindow = LineRule,
        },
        Policy = Policy,
        Given = [.. Given.Select(Entry)],
        Decisions = [.. Decisions.Select(d => new Decision(Day.Of(d.Date), d.Amount, d.Sessions ?? Decision.ByLength, d.As))],
        Planned = [.. Planned.Select(Entry)],
        OtherBusy = [.. OtherBusy.Select(b => (Day.Of(b.Date), b.Amount))],
        AsOf = Day.Of(AsOf),
        DailyLimit = DailyLimit,
    };

    public Working WorkOut() => Case().WorkOut();

    private static DateRange Range((LocalDate Start, LocalDate End) dates) => DateRange.Of(dates.Start, dates.End);

    private static Entry Entry((LocalDate Date, int Amount, LocalDate? Pays) e) =>
        new(Day.Of(e.Date), e.Amount, e.Pays is { } pays ? Day.Of(pays) : Day.None);
}

/// <summary>Random worlds around one school year, small enough that windows, closures and entries meet.</summary>
internal static class Worlds
{
    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static readonly LocalDate Start = new(2026, 8, 3);

    private static readonly Gen<LocalDate> Date = Gen.Int[-40, 420].Select(Start.PlusDays);

    private static readonly Gen<LocalDate> DateInTheYear = Gen.Int[0, 240].Select(Start.PlusDays);

    private static readonly Gen<LocalDate?> Pays = Gen.Frequency(
        (3, OneOf<LocalDate?>(null, null)), (2, DateInTheYear.Select(d => (LocalDate?)d)));

    private static readonly Gen<IsoDayOfWeek[]> Weekdays = Gen.Frequency(
        (8, Gen.Const(Enumerable.Range(1, 5).Select(i => (IsoDayOfWeek)i).ToArray())),
        (1, Gen.Int[0, 127].Select(bits => Enumerable.Range(1, 7).Where(i => (bits >> (i - 1) & 1) == 1).Select(i => (IsoDayOfWeek)i).ToArray())));

    /// <summary>Terms one after another with breaks of 0 to 70 days, now and then overlapping, mostly regular.</summary>
    private static readonly Gen<Term[]> Terms = Gen.Select(Gen.Int[-60, 20], Gen.Select(
        Gen.Frequency((1, Gen.Int[5, 60]), (3, Gen.Int[100, 260])), Gen.Frequency((1, Gen.Int[-10, -1]), (6, Gen.Int[0, 40]), (2, Gen.Int[41, 70])), Gen.Int[0, 6]).Array[1, 4], (first, parts) =>
    {
        var terms = new List<Term>();
        var next = Start.PlusDays(first);
        foreach (var (length, gap, kind) in parts)
        {
            terms.Add(new(next, next.PlusDays(length - 1), kind == 0 ? TermKind.Extended : TermKind.Regular));
            next = next.PlusDays(length + gap);
        }
        return terms.ToArray();
    });

    private static readonly Gen<SpecialDay[]> Special =
        Gen.Select(Date, Gen.Enum<ClosureKind>(), (date, kind) => new SpecialDay(date, kind)).Array[0, 40];

    /// <summary>Reporting periods in order, some with days left out between them.</summary>
    private static readonly Gen<(LocalDate Start, LocalDate End)[]> Periods = Gen.Select(
        Gen.Int[-20, 40], Gen.Select(Gen.Int[30, 90], Gen.Frequency((3, Gen.Const(0)), (2, Gen.Int[1, 12]))).Array[1, 6], (first, parts) =>
    {
        var periods = new List<(LocalDate, LocalDate)>();
        var next = Start.PlusDays(first);
        foreach (var (length, gap) in parts)
        {
            periods.Add((next, next.PlusDays(length - 1)));
            next = next.PlusDays(length + gap);
        }
        return periods.ToArray();
    });

    private static readonly Gen<Every> Each = Gen.Frequency(
        (8, Gen.Int[1, 3].Select(k => new Every(EveryUnit.Week, k))), (5, Gen.Int[1, 3].Select(k => new Every(EveryUnit.Month, k))),
        (1, Gen.Const(new Every(EveryUnit.Period, 1))), (2, Gen.Const(new Every(EveryUnit.PlanYear, 1))));

    private static readonly Gen<Policy> Policies = Gen.Select(
        Gen.Enum<ShortWindow>(), Gen.Enum<Surplus>(), OneOf(0, 0, 5, 50), OneOf(100, 100, 80, 1),
        (rule, surplus, tolerance, share) => new Policy(rule, surplus, tolerance, share));

    private static readonly Gen<(LocalDate, int, LocalDate?)[]> Entries =
        Gen.Select(DateInTheYear, OneOf(0, 1, 15, 20, 30, 30, 30, 45, 60, 100), Pays, (d, a, p) => (d, a, p)).Array[0, 60];

    private static readonly Gen<(LocalDate, int, int?, DecisionKind)[]> Decisions = Gen.Select(
        DateInTheYear, OneOf(0, 10, 30, 60, 200), OneOf<int?>(null, null, 0, 1, 3), Gen.Enum<DecisionKind>(),
        (d, a, s, k) => (d, a, s, k)).Array[0, 15];

    private static readonly Gen<(LocalDate From, LocalDate To, (LocalDate, int, int)[] Versions)> Line = Gen.Select(
        Gen.Frequency((3, Gen.Int[-10, 40]), (1, Gen.Int[41, 150])), Gen.Frequency((1, Gen.Int[0, 60]), (5, Gen.Int[61, 330])),
        Gen.Select(Gen.Int[1, 90], OneOf(1, 20, 30, 50, 60, 90, 120, 540), OneOf(0, 1, 2, 3)).Array[1, 4],
        Gen.Bool, (from, length, versions, withSessions) =>
    {
        var next = Start.PlusDays(from);
        var list = new List<(LocalDate, int, int)>();
        foreach (var (days, quantity, sessions) in versions)
        {
            list.Add((next, quantity, withSessions ? sessions : 0));
            next = next.PlusDays(days);
        }
        return (Start.PlusDays(from), Start.PlusDays(from + length), list.ToArray());
    });

    private static readonly Gen<(LocalDate, LocalDate)> Plan =
        Gen.Select(Gen.Int[-90, 100], Gen.Int[100, 900], (first, length) => (Start.PlusDays(first), Start.PlusDays(first + length)));

    private static readonly Gen<World> Frame = Gen.Select(Weekdays, Gen.Int[1, 7], Terms, Special, Periods, Plan, Each, Line,
        (weekdays, weekStart, terms, special, periods, plan, every, line) => new World
        {
            Weekdays = weekdays,
            WeekStart = (IsoDayOfWeek)weekStart,
            Terms = terms,
            Special = special,
            Periods = periods,
            Period = periods[0],
            Plan = plan,
            Every = every,
            From = line.From,
            To = line.To,
            Versions = line.Versions,
            LineTerms = LineTerms.Regular,
            LineRule = null,
            Policy = Policy.Default,
            Given = [],
            Decisions = [],
            Planned = [],
            OtherBusy = [],
            AsOf = periods[0].End,
            DailyLimit = null,
        });

    private static readonly Gen<(LocalDate, int)[]> Busy = Gen.Select(DateInTheYear, OneOf(15, 30, 90)).Array[0, 60];

    /// <summary>Any world; its judged period is one of its periods.</summary>
    public static readonly Gen<World> Any = Gen.Select(Frame, Gen.Select(OneOf(LineTerms.Regular, LineTerms.Regular, LineTerms.Regular, LineTerms.Both, LineTerms.Both, LineTerms.Both, LineTerms.Extended), OneOf<ShortWindow?>(null, null, ShortWindow.InFull, ShortWindow.Prorated, ShortWindow.AtLeastHalf), Policies),
        Gen.Select(Entries, Decisions, Entries, Busy), Gen.Int[-20, 120], OneOf<int?>(null, 0, 30, 60, 90), Gen.Int[0, 3],
        (frame, rules, happened, asOf, limit, period) => frame with
        {
            LineTerms = rules.Item1,
            LineRule = rules.Item2,
            Policy = rules.Item3,
            Given = happened.Item1,
            Decisions = happened.Item2,
            Planned = happened.Item3,
            OtherBusy = happened.Item4,
            AsOf = frame.Periods[period % frame.Periods.Length].Start.PlusDays(asOf),
            DailyLimit = limit,
            Period = frame.Periods[period % frame.Periods.Length],
        });
}
