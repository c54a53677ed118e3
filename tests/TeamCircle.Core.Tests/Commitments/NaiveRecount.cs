using System.Numerics;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Commitments;

/// <summary>
/// The rules of docs/rules.md, parts 1 to 8, read aloud: walks through the calendar one day at a time, keeps everything in
/// dictionaries by window, and shares no code with the ledger. Slow on purpose.
/// </summary>
internal sealed class NaiveRecount
{
    private readonly World _w;
    private readonly List<LocalDate> _days = [];
    private readonly SortedDictionary<int, List<LocalDate>> _windows = [];

    public NaiveRecount(World world)
    {
        _w = world;
        for (var d = new LocalDate(2025, 10, 1); d < new LocalDate(2030, 4, 1); d = d.PlusDays(1))
            _days.Add(d);
        foreach (var day in _days)
        {
            if (KeyOf(day) is { } key)
                (_windows.TryGetValue(key, out var list) ? list : _windows[key] = []).Add(day);
        }
        // only windows that touch the line's dates are considered
        foreach (var key in _windows.Keys.Where(k => !_windows[k].Any(InLine)).ToList())
            _windows.Remove(key);
    }

    // ---- part 1

    private bool Ordinary(LocalDate d) => _w.Weekdays.Contains(d.DayOfWeek);

    private bool Is(LocalDate d, ClosureKind kind) => _w.Special.Any(s => s.Date == d && s.Kind == kind);

    private IEnumerable<Term> LineTerms => _w.Terms.Where(t => _w.LineTerms == Core.Learners.LineTerms.Both
        || (_w.LineTerms == Core.Learners.LineTerms.Regular) == (t.Kind == TermKind.Regular));

    private bool InTerm(LocalDate d) => LineTerms.Any(t => t.FirstDay <= d && d <= t.LastDay);

    private readonly Dictionary<LocalDate, bool> _scheduled = [];

    private bool Scheduled(LocalDate d) => _scheduled.TryGetValue(d, out var known) ? known : _scheduled[d] =
        (InTerm(d) && ((Ordinary(d) && !Is(d, ClosureKind.Published)) || Is(d, ClosureKind.Extra))) || Expected(d);

    private bool Instructional(LocalDate d) => !Expected(d) && Scheduled(d) && !Is(d, ClosureKind.Unscheduled);

    private bool Expected(LocalDate d)
    {
        if (_w.Every.Unit != EveryUnit.PlanYear || !LineTerms.Any())
            return false;
        var lastDay = LineTerms.Max(t => t.LastDay);
        if (d <= lastDay || d > _w.Plan.End || !Ordinary(d) || Is(d, ClosureKind.Published))
            return false;
        var earlier = d;
        while (earlier > lastDay)
            earlier = earlier.PlusDays(-364);
        return InTerm(earlier);
    }

    private bool Outside(LocalDate d)
    {
        if (InTerm(d))
            return false;
        var before = LineTerms.Where(t => t.LastDay < d).Select(t => (LocalDate?)t.LastDay).Max();
        var after = LineTerms.Where(t => t.FirstDay > d).Select(t => (LocalDate?)t.FirstDay).Min();
        return before is null || after is null || Period.DaysBetween(before.Value, after.Value) - 1 > 30;
    }

    // ---- part 2

    private bool InLine(LocalDate d) => _w.From <= d && d <= _w.To;

    private int? KeyOf(LocalDate d)
    {
        switch (_w.Every.Unit)
        {
            case EveryUnit.Week:
                var first = _w.From;
                while (first.DayOfWeek != _w.WeekStart)
                    first = first.PlusDays(-1);
                var days = Period.DaysBetween(first, d);
                return days < 0 ? null : days / (7 * _w.Every.Count);
            case EveryUnit.Month:
                var months = (d.Year * 12 + d.Month) - (_w.From.Year * 12 + _w.From.Month);
                return months < 0 ? null : months / _w.Every.Count;
            case EveryUnit.Period:
                var period = Array.FindIndex(_w.Periods, p => p.Start <= d && d <= p.End);
                return period < 0 ? null : period;
            default:
                return _w.Plan.Start <= d && d <= _w.Plan.End ? 0 : null;
        }
    }

    private int? ActiveWindow(LocalDate d) => KeyOf(d) is { } key && _windows.ContainsKey(key) && Active(key).Count > 0 ? key : null;

    private int? OwnWindow(LocalDate d) => InLine(d) ? ActiveWindow(d) : null;

    private readonly Dictionary<int, List<LocalDate>> _active = [];

    private List<LocalDate> Active(int key) =>
        _active.TryGetValue(key, out var days) ? days : _active[key] = _windows[key].Where(d => InLine(d) && Scheduled(d)).ToList();

    private LocalDate Closes(int key) => Active(key)[^1];

    // ---- part 3

    private (int Quantity, int Sessions) VersionOn(LocalDate d)
    {
        var version = _w.Versions.Last(v => v.From <= d);
        return (version.Quantity, version.Sessions);
    }

    private readonly Dictionary<int, Fraction> _share = [];

    /// <summary>What one active day of a window comes to for a promise of 1.</summary>
    private Fraction DayShare(int key)
    {
        if (_share.TryGetValue(key, out var known))
            return known;
        var days = _windows[key];
        var spread = days.Count(Scheduled);
        var byTheDay = _w.Every.Unit is EveryUnit.Week or EveryUnit.Month;
        if (byTheDay)
            spread += days.Count(d => Ordinary(d) && Outside(d));
        var ordinary = days.Count(Ordinary);
        var s = !byTheDay ? new Fraction(1, 1) : (_w.LineRule ?? _w.Policy.ShortWindow) switch
        {
            ShortWindow.InFull => new Fraction(1, 1),
            ShortWindow.Prorated => spread >= ordinary ? new Fraction(1, 1) : new Fraction(spread, ordinary),
            _ => 2 * spread >= ordinary ? new Fraction(1, 1) : new Fraction(0, 1),
        };
        return _share[key] = s.Over(spread);
    }

    private Fraction Whole(int key, Func<LocalDate, int> promised, LocalDate? upTo = null) => Active(key)
        .Where(d => upTo is null || d <= upTo)
        .Aggregate(new Fraction(0, 1), (sum, d) => sum.Plus(DayShare(key).Times(promised(d))));

    private readonly Dictionary<int, (int Minutes, int Sessions)> _owed = [];

    private (int Minutes, int Sessions) Promised(int key) => _owed.TryGetValue(key, out var known) ? known : _owed[key] =
        (Whole(key, d => VersionOn(d).Quantity).Round(), Whole(key, d => VersionOn(d).Sessions).Round());

    private int Owed(int key) => Promised(key).Minutes;

    private int SessionsOwed(int key) => Promised(key).Sessions;

    private Fraction? SessionLength(int key)
    {
        if (!_w.HasSessions)
            return null;
        if (SessionsOwed(key) is > 0 and var n)
            return new Fraction(Owed(key), n);
        var (quantity, sessions) = VersionOn(Closes(key));
        return sessions > 0 ? new Fraction(quantity, sessions) : null;
    }

    private bool IsSession(int key, int minutes) => minutes > 0 && SessionLength(key) is { } length
        && length.Times(_w.Policy.SessionShare).Over(100).CompareTo(new Fraction(minutes, 1)) <= 0;

    // ---- part 5

    private sealed class Book
    {
        public readonly Dictionary<int, int> Minutes = [];
        public readonly Dictionary<int, int> Paid = [];
        public readonly Dictionary<int, int> Sessions = [];
        public readonly Dictionary<int, int> SessionsPaid = [];
        public int Outside;
        public int MadeUpLate;
    }

    private Book CountGiven(LocalDate asOf)
    {
        var book = new Book();
        var entries = _w.Given.Where(g => g.Date <= asOf).ToList();
        var makeUps = new List<(LocalDate Date, int Amount, LocalDate Pays)>();
        foreach (var (date, amount, pays) in entries)
        {
            var own = OwnWindow(date);
            if (pays is { } day && ActiveWindow(day) is null)
                continue;
            if (pays is { } paid && ActiveWindow(paid) != own)
                makeUps.Add((date, amount, paid));
            else if (own is null)
                book.Outside += amount;
            else
            {
                Add(book.Minutes, own.Value, amount);
                Add(book.Sessions, own.Value, IsSession(own.Value, amount) ? 1 : 0);
            }
        }
        foreach (var (date, amount, pays) in makeUps.OrderBy(m => m.Date))
        {
            var named = ActiveWindow(pays)!.Value;
            var (own, room) = (OwnWindow(date), Math.Max(0, Owed(named) - Of(book.Minutes, named)));
            var pay = Math.Min(amount, room);
            Add(book.Minutes, named, pay);
            Add(book.Paid, named, pay);
            if (date > _w.Period.End && ClosesInPeriod(named))
                book.MadeUpLate += pay;
            if (own is null)
                book.Outside += amount - pay;
            else
                Add(book.Minutes, own.Value, amount - pay);
            if (IsSession(named, amount) && Of(book.Sessions, named) < SessionsOwed(named))
            {
                Add(book.Sessions, named, 1);
                Add(book.SessionsPaid, named, 1);
            }
            else if (own is not null && IsSession(own.Value, amount))
                Add(book.Sessions, own.Value, 1);
        }
        return book;
    }

    // ---- parts 4 and 6

    private bool ClosesInPeriod(int key) => Active(key).Count > 0 && _w.Period.Start <= Closes(key) && Closes(key) <= _w.Period.End;

    private int Decided(int key, bool notOwed, LocalDate? upTo = null) => _w.Decisions
        .Where(d => ActiveWindow(d.Date) == key && (d.As == DecisionKind.NotOwed) == notOwed && (upTo is null || d.Date <= upTo))
        .Sum(d => d.Amount);

    private int DecidedSessions(int key, bool notOwed) => !_w.HasSessions ? 0 : _w.Decisions
        .Where(d => ActiveWindow(d.Date) == key && (d.As == DecisionKind.NotOwed) == notOwed)
        .Sum(d => d.Sessions ?? (SessionLength(key) is { } length && !length.IsZero ? new Fraction(d.Amount, 1).Over(length).RoundUp() : 0));

    // ---- parts 7 and 8

    public SortedDictionary<string, object?> Answer()
    {
        var answer = new SortedDictionary<string, object?>(StringComparer.Ordinal);
        var t = _w.AsOf;
        var e = _w.Period.End;
        var book = CountGiven(t);
        var keys = _windows.Keys.Where(ClosesInPeriod).ToList();
        var past = keys.Where(k => Closes(k) < t).ToList();
        bool carry = _w.Policy.Surplus == Surplus.CarryWithinPeriod;

        int Given(int k) => Of(book.Minutes, k);
        int NotOwed(int k) => Math.Min(Decided(k, true), Math.Max(0, Owed(k) - Given(k)));
        int Due(int k) => Owed(k) - NotOwed(k);
        int Lack(int k) => Math.Max(0, Due(k) - Given(k));
        int SGiven(int k) => Of(book.Sessions, k);
        int SDue(int k) => SessionsOwed(k) - Math.Min(DecidedSessions(k, true), Math.Max(0, SessionsOwed(k) - SGiven(k)));
        int SLack(int k) => Math.Max(0, SDue(k) - SGiven(k));

        // what is planned
        var (plan, planSessions, later) = (new Dictionary<int, int>(), new Dictionary<int, int>(), 0);
        var makeUps = new List<(LocalDate Date, int Amount, LocalDate Pays)>();
        foreach (var (date, amount, pays) in _w.Planned.Where(p => p.Date >= t))
        {
            var own = OwnWindow(date);
            if (pays is { } day && ActiveWindow(day) is null)
                continue;
            if (pays is { } paid && ActiveWindow(paid) != own)
                makeUps.Add((date, amount, paid));
            else if (own is not null && date <= e)
            {
                Add(plan, own.Value, amount);
                Add(planSessions, own.Value, IsSession(own.Value, amount) ? 1 : 0);
            }
        }
        void PlanMakeUps(IEnumerable<(LocalDate Date, int Amount, LocalDate Pays)> which, bool afterPeriod)
        {
            foreach (var (date, amount, pays) in which.OrderBy(m => m.Date))
            {
                var (named, own) = (ActiveWindow(pays)!.Value, OwnWindow(date));
                var pay = Math.Min(amount, Math.Max(0, Due(named) - Given(named) - Of(plan, named)));
                Add(plan, named, pay);
                if (own is not null)
                    Add(plan, own.Value, amount - pay);
                if (afterPeriod)
                    later += ClosesInPeriod(named) ? pay : 0;
                else if (IsSession(named, amount) && SGiven(named) + Of(planSessions, named) < SDue(named))
                    Add(planSessions, named, 1);
                else if (own is not null && IsSession(own.Value, amount))
                    Add(planSessions, own.Value, 1);
            }
        }
        PlanMakeUps(makeUps.Where(m => m.Date <= e), false);
        var planned = plan.ToDictionary();

        int Short(int k) => Math.Max(0, Due(k) - Given(k) - Of(planned, k));
        int SShort(int k) => Math.Max(0, SDue(k) - SGiven(k) - Of(planSessions, k));
        var lack = carry ? Math.Max(0, keys.Sum(Due) - keys.Sum(Given)) : keys.Sum(Lack);
        var lackSoFar = carry ? Math.Max(0, past.Sum(Due) - keys.Sum(Given)) : past.Sum(Lack);
        var shortAsPlanned = carry ? Math.Max(0, keys.Sum(Due) - keys.Sum(Given) - keys.Sum(k => Of(planned, k))) : keys.Sum(Short);
        var sLack = carry ? Math.Max(0, keys.Sum(SDue) - keys.Sum(SGiven)) : keys.Sum(SLack);
        var sLackSoFar = carry ? Math.Max(0, past.Sum(SDue) - keys.Sum(SGiven)) : past.Sum(SLack);
        var sShort = carry ? Math.Max(0, keys.Sum(SDue) - keys.Sum(SGiven) - keys.Sum(k => Of(planSessions, k))) : keys.Sum(SShort);
        var undecided = Math.Min(lackSoFar, past.Sum(k => Math.Min(Lack(k), Math.Max(0, Due(k) - (Given(k) - Of(book.Paid, k)) - Decided(k, false)))));
        var sUndecided = Math.Min(sLackSoFar, past.Sum(k => Math.Min(SLack(k), Math.Max(0, SDue(k) - (SGiven(k) - Of(book.SessionsPaid, k)) - DecidedSessions(k, false)))));

        int? space = null;
        if (_w.DailyLimit is { } limit)
            space = _days.Where(d => d >= t && d >= _w.Period.Start && d <= e && InLine(d) && Instructional(d)).Sum(d => Math.Max(0, limit
                - _w.Given.Where(g => g.Date == d && g.Date <= t).Sum(g => g.Amount)
                - _w.Planned.Where(p => p.Date == d && p.Date >= t).Sum(p => p.Amount)
                - _w.OtherBusy.Where(b => b.Date == d).Sum(b => b.Amount)));

        // open windows
        var open = _windows.Keys.Where(k => Active(k).Count > 0 && Active(k)[0] <= e && Closes(k) > e).Select(k =>
        {
            var upTo = t.PlusDays(-1) < e ? t.PlusDays(-1) : e;
            var pace = Math.Max(0, Whole(k, d => VersionOn(d).Quantity, upTo).Round() - Math.Min(Decided(k, true, upTo), NotOwed(k)));
            return (Key: k, Pace: pace, Given: Of(CountGiven(t < e ? t : e).Minutes, k));
        }).ToList();

        answer["owed"] = keys.Sum(Owed);
        answer["notOwed"] = keys.Sum(NotOwed);
        answer["due"] = keys.Sum(Due);
        answer["given"] = keys.Sum(Given);
        answer["credited"] = keys.Sum(Due) - lack;
        answer["lack"] = lack;
        answer["lackSoFar"] = lackSoFar;
        answer["undecided"] = undecided;
        answer["dueSoFar"] = past.Sum(Due);
        answer["givenSoFar"] = past.Sum(Due) - lackSoFar;
        answer["plannedToCome"] = lack - shortAsPlanned;
        answer["stillToPlan"] = shortAsPlanned;
        answer["shortAsPlanned"] = shortAsPlanned;
        answer["spaceLeft"] = space;
        answer["madeUpSince"] = book.MadeUpLate;
        answer["outside"] = book.Outside;
        answer["openOwed"] = open.Sum(o => Owed(o.Key));
        answer["openPace"] = open.Sum(o => o.Pace);
        answer["openGiven"] = open.Sum(o => o.Given);
        if (_w.HasSessions)
        {
            answer["sessionsDue"] = keys.Sum(SDue);
            answer["sessionsGiven"] = keys.Sum(SGiven);
            answer["sessionsLack"] = sLack;
            answer["sessionsUndecided"] = sUndecided;
        }
        PlanMakeUps(makeUps.Where(m => m.Date > e), true);
        answer["plannedLater"] = later;

        // statuses
        Status Steps(int due, int owed, int lacks, int soFar, int shorts, Fraction needs, int tolerance) =>
            due == 0 ? (owed > 0 ? Status.NothingLeftDue : Status.NothingDue)
            : lacks == 0 ? Status.Met
            : t > e ? (lacks <= due * tolerance / 100 ? Status.WithinTolerance : Status.NotMet)
            : shorts == 0 ? (soFar == 0 ? Status.OnCourse : Status.CatchingUp)
            : space is not null && needs.CompareTo(new Fraction(space.Value, 1)) > 0 ? Status.CannotFit
            : soFar == 0 ? Status.NotPlanned : Status.Behind;
        var status = Steps(keys.Sum(Due), keys.Sum(Owed), lack, lackSoFar, shortAsPlanned, new Fraction(shortAsPlanned, 1), _w.Policy.TolerancePercent);
        if (_w.HasSessions)
        {
            Fraction Length(int k) => SessionLength(k) ?? new Fraction(0, 1);
            var needs = carry ? (keys.Count == 0 ? new Fraction(0, 1) : Length(keys.MaxBy(Closes)).Times(sShort))
                : keys.Aggregate(new Fraction(0, 1), (sum, k) => sum.Plus(Length(k).Times(SShort(k))));
            var bySessions = Steps(keys.Sum(SDue), keys.Sum(SessionsOwed), sLack, sLackSoFar, sShort, needs, 0);
            status = (Status)Math.Max((int)status, (int)bySessions);
        }
        if (keys.Sum(Owed) == 0 && open.Count > 0)
            status = open.All(o => o.Given >= o.Pace) ? Status.OnPace : Status.BelowPace;
        answer["status"] = char.ToLowerInvariant(status.ToString()[0]) + status.ToString()[1..];

        answer["windows"] = string.Join("; ", keys.OrderBy(Closes).Select(k =>
            $"{_windows[k][0]:uuuu-MM-dd} {_windows[k][^1]:uuuu-MM-dd} {Closes(k):uuuu-MM-dd} {_windows[k].Count(Scheduled)} {Active(k).Count} "
            + $"{Owed(k)} {NotOwed(k)} {Due(k)} {Given(k)} {Lack(k)} {Math.Max(0, Given(k) - Due(k))} {Of(planned, k)}"
            + (_w.HasSessions ? $" {SessionsOwed(k)} {SDue(k)} {SGiven(k)}" : "")));
        answer["open"] = string.Join("; ", open.Select(o =>
            $"{_windows[o.Key][0]:uuuu-MM-dd} {_windows[o.Key][^1]:uuuu-MM-dd} {Closes(o.Key):uuuu-MM-dd} {Owed(o.Key)} {o.Pace} {o.Given} {o.Given >= o.Pace}"));
        return answer;
    }

    private static void Add(Dictionary<int, int> to, int key, int amount) => to[key] = Of(to, key) + amount;

    private static int Of(Dictionary<int, int> from, int key) => from.GetValueOrDefault(key);

    private readonly struct Fraction(BigInteger top, BigInteger bottom)
    {
        private readonly BigInteger _top = top;
        private readonly BigInteger _bottom = bottom;

        public bool IsZero => _top.IsZero;
        public Fraction Plus(Fraction f) =>
            _bottom == f._bottom ? new(_top + f._top, _bottom) : new(_top * f._bottom + f._top * _bottom, _bottom * f._bottom);
        public Fraction Times(int n) => new(_top * n, _bottom);
        public Fraction Over(int n) => new(_top, _bottom * n);
        public Fraction Over(Fraction f) => new(_top * f._bottom, _bottom * f._top);
        public int CompareTo(Fraction f) => (_top * f._bottom).CompareTo(f._top * _bottom);
        public int Round() => (int)BigInteger.Divide(2 * _top + _bottom, 2 * _bottom);
        public int RoundUp() => (int)BigInteger.Divide(_top + _bottom - 1, _bottom);
    }
}
