using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Counts each entry and decision in its window (docs/rules.md, parts 5, 6 and 8).</summary>
internal ref struct Posting
{
    private readonly LineFacts _line;
    private readonly Judging _at;
    private readonly LedgerDesk _desk;
    private readonly PeriodWindows _period;
    private readonly Working? _working;

    public Posting(in LineFacts line, in Judging at, LedgerDesk desk, in PeriodWindows period, Working? working)
    {
        _line = line;
        _at = at;
        _desk = desk;
        _period = period;
        _working = working;
    }

    /// <summary>Minutes that count for nothing.</summary>
    public int Outside { get; private set; }

    public int OutsideEntries { get; private set; }

    public int NamesNoWindow { get; private set; }

    public int NeverLogged { get; private set; }

    public int IgnoredDecisions { get; private set; }

    public int MadeUpSince { get; private set; }

    public int PlannedLater { get; private set; }

    /// <summary>The tally of a window, with what it owes.</summary>
    public readonly ref WindowTally Tally(int window)
    {
        ref var tally = ref _desk.Tally(window, out var fresh);
        if (fresh)
            OwedRule.Open(ref tally, _line.Promise, _line.Windows, window, _at.Policies.On(_line.Windows.All[window].Closes));
        return ref tally;
    }

    /// <summary>Starts afresh with what was given up to a day: ordinary entries first, then make-ups in order of date.</summary>
    public void Given(int asOf)
    {
        _desk.Clear(_line.Windows.All.Length, Math.Max(_line.Given.Length, _line.Planned.Length), _line.Debts.Length);
        (Outside, OutsideEntries, NamesNoWindow, MadeUpSince) = (0, 0, 0, 0);
        for (var i = 0; i < _line.Given.Length; i++)
        {
            ref readonly var entry = ref _line.Given[i];
            if (entry.Day > asOf)
                _working?.Given(i, entry, Fate.AfterAsOf);
            else
                Sort(entry, i, planned: false);
        }
        foreach (var makeUp in _desk.TakeMakeUps())
            PostMakeUp(_line.Given[(int)makeUp], (int)makeUp, planned: false);
    }

    /// <summary>Counts decisions in the windows that their dates name.</summary>
    public void Decisions()
    {
        for (var i = 0; i < _line.Decisions.Length; i++)
        {
            ref readonly var decision = ref _line.Decisions[i];
            var window = _line.Windows.Find(decision.Day);
            var sessions = 0;
            if (window < 0)
                IgnoredDecisions++;
            else
                sessions = Decide(decision, ref Tally(window));
            _working?.Decided(decision, window, sessions);
        }
    }

    /// <summary>Adds what is planned from the as-of day to the end of the period.</summary>
    public void Planned()
    {
        for (var i = 0; i < _line.Planned.Length; i++)
        {
            ref readonly var entry = ref _line.Planned[i];
            if (entry.Day < _at.AsOf)
            {
                NeverLogged++;
                _working?.Planned(i, entry, Fate.NeverLogged);
            }
            else if (entry.Day <= _at.Period.Last)
                Sort(entry, i, planned: true);
            else
                _working?.Planned(i, entry, Fate.AfterPeriod);
        }
        foreach (var makeUp in _desk.TakeMakeUps())
            PostMakeUp(_line.Planned[(int)makeUp], (int)makeUp, planned: true);
    }

    /// <summary>Adds make-ups planned after the period; all sums of the period must have been taken before.</summary>
    public void PlannedAfterPeriod()
    {
        for (var i = 0; i < _line.Planned.Length; i++)
        {
            ref readonly var entry = ref _line.Planned[i];
            if (entry.Day > _at.Period.Last && entry.Day >= _at.AsOf && entry.Pays != Day.None)
                SetAsideIfMakeUp(entry, i, planned: true, _line.Windows.FindOwn(entry.Day));
        }
        foreach (var makeUp in _desk.TakeMakeUps())
            PostMakeUp(_line.Planned[(int)makeUp], (int)makeUp, planned: true);
    }

    private void Sort(in Entry entry, int index, bool planned)
    {
        var own = _line.Windows.FindOwn(entry.Day);
        if (entry.Pays != Day.None && SetAsideIfMakeUp(entry, index, planned, own))
            return;
        if (own < 0)
            LeaveOutside(entry.Amount, planned);
        else
            PostOrdinary(entry, index, planned, own);
        if (own < 0 && _working is not null)
            Note(index, entry, planned, OutsideFate(entry.Day), new EntryParts { Outside = entry.Amount });
    }

    /// <summary>False where the entry names its own window, and so is an ordinary one.</summary>
    private bool SetAsideIfMakeUp(in Entry entry, int index, bool planned, int own)
    {
        var named = _line.Windows.Find(entry.Pays);
        if (DebtOf(entry, named) >= 0)
        {
            _desk.SetAside(entry.Day, index);
            return true;
        }
        if (named < 0)
        {
            NamesNoWindow++;
            Note(index, entry, planned, Fate.NamesNoWindow, default);
        }
        else if (named != own)
            _desk.SetAside(entry.Day, index);
        return named != own || named < 0;
    }

    private void PostOrdinary(in Entry entry, int index, bool planned, int own)
    {
        ref var tally = ref Tally(own);
        tally.Minutes.Add(entry.Amount, planned);
        var session = tally.IsSession(entry.Amount);
        if (session)
            tally.Sessions.Add(1, planned);
        if (_working is not null)
            Note(index, entry, planned, Fate.Ordinary, new EntryParts { Own = own, Counted = entry.Amount, SessionOf = session ? own : null });
    }

    /// <summary>A make-up pays what its window lacks, or what is left of the debt that it names; the rest counts on its own date. It is a session of one of the two at most.</summary>
    private void PostMakeUp(in Entry entry, int index, bool planned)
    {
        var named = _line.Windows.Find(entry.Pays);
        var own = _line.Windows.FindOwn(entry.Day);
        var debt = DebtOf(entry, named);
        var left = Left(named, debt);
        var paid = Math.Min(entry.Amount, left.Minutes);
        var rest = entry.Amount - paid;
        var paysSession = left.Sessions > 0 && named >= 0 && Tally(named).IsSession(entry.Amount);
        Pay(named, debt, new(paid, paysSession ? 1 : 0), planned);
        CountPaid(entry.Day, named, paid, planned);
        var isOwnSession = !paysSession && own >= 0 && Tally(own).IsSession(entry.Amount);
        if (own >= 0)
            Tally(own).Minutes.Add(rest, planned);
        else if (rest > 0)
            LeaveOutside(rest, planned);
        if (isOwnSession)
            Tally(own).Sessions.Add(1, planned);
        if (_working is not null)
        {
            var parts = new EntryParts
            {
                Own = own < 0 ? null : own,
                Counted = own < 0 ? 0 : rest,
                Outside = own < 0 ? rest : 0,
                Pays = named < 0 ? null : named,
                Paid = paid,
                Debt = debt < 0 ? null : debt,
                SessionOf = paysSession ? named : isOwnSession ? own : null,
            };
            Note(index, entry, planned, planned && entry.Day > _at.Period.Last ? Fate.AfterPeriod : Fate.MakeUp, parts);
        }
    }

    private readonly DebtAmount Left(int named, int debt)
    {
        if (debt >= 0)
            return _desk.Debt(debt).Left(_line.Debts[debt]);
        ref var tally = ref Tally(named);
        return new(tally.Minutes.Short, tally.Sessions.Short);
    }

    private readonly void Pay(int named, int debt, DebtAmount paid, bool planned)
    {
        if (debt >= 0)
            _desk.Debt(debt).Pay(paid, planned);
        if (named < 0)
            return;
        ref var tally = ref Tally(named);
        tally.Minutes.Pay(paid.Minutes, planned);
        tally.Sessions.Pay(paid.Sessions, planned);
    }

    /// <summary>The debt that a make-up pays; -1 where it names none, or is not dated after the sealed period.</summary>
    private readonly int DebtOf(in Entry entry, int named)
    {
        for (var i = 0; i < _line.Debts.Length; i++)
        {
            ref readonly var debt = ref _line.Debts[i];
            if (entry.Day > debt.Since && (debt.IsFromFile ? debt.Day == entry.Pays : named >= 0 && _line.Windows.Find(debt.Day) == named))
                return i;
        }
        return -1;
    }

    private void CountPaid(int day, int named, int paid, bool planned)
    {
        if (day <= _at.Period.Last || named < _period.First || named >= _period.End || !_period.Closes(named))
            return;
        if (planned)
            PlannedLater += paid;
        else
            MadeUpSince += paid;
    }

    private void LeaveOutside(int minutes, bool planned)
    {
        OutsideEntries++;
        if (!planned)
            Outside += minutes;
    }

    private readonly int Decide(in Decision decision, ref WindowTally tally)
    {
        var sessions = SessionsOf(decision, tally);
        if (decision.Kind == DecisionKind.NotOwed)
        {
            tally.Minutes.DecidedNotOwed += decision.Amount;
            tally.Sessions.DecidedNotOwed += sessions;
            tally.DecidedForPace += decision.Day <= _at.PaceUpTo ? decision.Amount : 0;
        }
        else
        {
            tally.Minutes.DecidedOtherwise += decision.Amount;
            tally.Sessions.DecidedOtherwise += sessions;
        }
        return sessions;
    }

    private readonly int SessionsOf(in Decision decision, in WindowTally tally)
    {
        if (!_line.Promise.HasSessions)
            return 0;
        if (decision.Sessions != Decision.ByLength)
            return decision.Sessions;
        return tally.LengthOver == 0 ? 0 : new Ratio((Int128)decision.Amount * tally.LengthUnder, tally.LengthOver).RoundedUp;
    }

    private readonly Fate OutsideFate(int day)
    {
        if (!_line.Promise.Dates.Holds(day))
            return Fate.OutsideTheDates;
        foreach (ref readonly var window in _line.Windows.All)
        {
            if (window.Days.Holds(day))
                return Fate.NoSchoolDayInWindow;
        }
        return Fate.InNoWindow;
    }

    private readonly void Note(int index, in Entry entry, bool planned, Fate fate, EntryParts parts)
    {
        if (planned)
            _working?.Planned(index, entry, fate, parts);
        else
            _working?.Given(index, entry, fate, parts);
    }
}
