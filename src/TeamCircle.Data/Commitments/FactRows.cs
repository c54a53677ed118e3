using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Takes an entry of a line.</summary>
internal delegate void TakeEntry(int line, int person, in Entry entry);

/// <summary>Which visits count as to come: those for a service that are not logged and, seen from an earlier day, those that were logged since.</summary>
/// <remarks>One by one the first two are read from indexes of their own; <see cref="Either"/> keeps one order over both.</remarks>
internal enum ToCome
{
    Planned,
    LoggedSince,
    Either,
}

/// <summary>The queries that turn rows into what the ledger takes, and where their answers gather; all within one transaction.</summary>
internal sealed class FactRows
{
    // What is so nearly everywhere is not sent: two words a visit were a tenth of an agency's audit.
    private static readonly (Place Place, SessionFormat Format) Usual = (Place.Home, SessionFormat.Individual);

    private readonly RowFilter _rows;
    private readonly AgencyRules _rules;
    private readonly ReadLines _lines;
    private readonly ByLine<Decision> _decisions = new();
    private readonly ByLine<Debt> _debts = new();
    private readonly DateRange? _lookAt;
    private readonly bool _hasTwo;
    private GivenOtherwise? _otherwise, _probedOtherwise;
    private IRowReader _reader;

    /// <param name="beside">Reads over a second connection that sees the same, to read lines on both at once; null where there is none.</param>
    /// <param name="asOf">The as-of day: visits after it count as planned, also where they have been logged since.</param>
    /// <param name="lookAt">The days on which to look at what was given otherwise than promised; null for none.</param>
    public FactRows(IRowReader reader, IRowReader? beside, RowFilter rows, AgencyRules rules, int asOf, DateRange? lookAt)
    {
        (_reader, _rows, _rules, AsOf, _lookAt, _hasTwo) = (reader, rows, rules, asOf, lookAt, beside is not null);
        _lines = new(reader, beside, rows, rules);
        _lines.Run();
        reader.Then(TakeLines);
    }

    public int AsOf { get; }

    /// <summary>The lines, once they are read; none before.</summary>
    public CommitmentLine[] Lines => _lines.Lines;

    public LineIndex Index { get; private set; } = new([]);

    /// <summary>Visits given.</summary>
    public EntriesByLine Given { get; } = new();

    /// <summary>Probes taken.</summary>
    public EntriesByLine Probed { get; } = new();

    public EntriesByLine Planned { get; } = new();

    /// <summary>The same gathering over another connection, once the lines are read. Two threads may read at once what goes into different places: visits given; probes;
    /// what is to come; decisions.</summary>
    public FactRows Over(IRowReader reader)
    {
        var other = (FactRows)MemberwiseClone();
        other._reader = reader;
        return other;
    }

    /// <summary>SQL for a day.</summary>
    public static string Sql(int day) => $"date '{Day.Date(day):uuuu-MM-dd}'";

    /// <summary>Visits given.</summary>
    /// <param name="where">Narrows the rows of sessions <c>s</c>, and may say their order.</param>
    /// <param name="look">Whether to look for what was given otherwise than promised; nobody may look at a row twice.</param>
    public void Sessions(string where, TakeEntry take, bool look = false)
    {
        var isLooking = look && _lookAt is not null;
        var columns = !isLooking ? "" : $", nullif(s.place, '{Usual.Place}'), nullif(s.format, '{Usual.Format}')";
        Copy($"""
            select s.service_id, s.provider_id, s.on_day, s.credited, s.pays_on{columns}
            from portal.sessions s where {_rows.Sql("s")} and s.live and s.outcome = 'Given' and s.award_id is null and {where}
            """, row =>
        {
            var (line, person) = (Index.Service(row.Int()), row.Int());
            var entry = new Entry(row.Day(), row.Int(), row.Day());
            if (line >= 0)
                take(line, person, entry);
            if (!isLooking)
                return;
            var (place, format) = (row.CodeOrNull<Place>() ?? Usual.Place, row.CodeOrNull<SessionFormat>() ?? Usual.Format);
            if (line >= 0)
                _otherwise!.Look(line, person, entry.Day, place, format);
        });
    }

    /// <summary>Sums of the ordinary visits given for some services on some days, as one entry for each service.</summary>
    /// <param name="services">SQL for the list of services.</param>
    public void SessionSums(string services, DateRange days, Action<int, Entry> take) => Copy($"""
        select s.service_id, min(s.on_day), sum(s.credited)::int from portal.sessions s
        where {_rows.Sql("s")} and s.live and s.outcome = 'Given' and s.award_id is null and s.pays_on is null and s.service_id = any ({services})
            and s.on_day between {Sql(days.First)} and {Sql(days.Last)} group by s.service_id
        """, row => take(Index.Service(row.Int()), new(row.Day(), row.Int())));

    /// <summary>Probes that count for a commitment.</summary>
    /// <param name="where">Narrows the rows of probes <c>p</c>.</param>
    /// <param name="look">Whether to look for what was given otherwise than promised; nobody may look at a row twice.</param>
    public void Probes(string where, TakeEntry take, bool look = false) => Copy($"""
        select p.goal_id, p.provider_id, p.on_day, p.pays_on
        from portal.probes p where {_rows.Sql("p")} and p.live and p.kind = 'Probe' and {where}
        """, row =>
    {
        var (goal, person, day, pays) = (row.Int(), row.Int(), row.Day(), row.Day());
        if (Index.Probe(goal, person, day, pays) is >= 0 and var line)
            take(line, person, new(day, 1, pays));
        if (look && _probedOtherwise is not null && Index.Goal(goal) is { Count: > 0 } lines)
            _probedOtherwise.Look(lines.First, _lines.Owners.Of(goal), person, day);
    });

    /// <summary>Visits to come; one that names no goals stands for a probe of each goal that its provider owns.</summary>
    /// <param name="where">Narrows the rows of visits <c>v</c>, and may say their order.</param>
    public void Visits(ToCome toCome, string where, TakeEntry take) => Copy($"""
        select v.service_id, v.learner_id, v.provider_id, v.on_day, {PlannedMinutes(toCome)}, v.pays_on,
               v.on_day >= {Sql(AsOf)} and exists (select from portal.visit_goals g where g.agency_id = v.agency_id and g.visit_id = v.id)
        from portal.visits v where {_rows.Sql("v")} and {Counts(toCome)} and {where}
        """, row =>
    {
        var (line, learner, person) = (Index.Service(row.Int()), row.Int(), row.Int());
        var entry = new Entry(row.Day(), row.Int(), row.Day());
        if (line >= 0)
            take(line, person, entry);
        if (!row.Flag() && entry.Day >= AsOf)
            AddPlannedProbes(learner, person, entry.Day);
    });

    /// <summary>Goals named by visits to come.</summary>
    /// <param name="where">Narrows the rows of visits <c>v</c>.</param>
    public void PlannedGoals(ToCome toCome, string where) => Copy($"""
        select g.goal_id, v.provider_id, v.on_day
        from portal.visit_goals g join portal.visits v on (v.agency_id, v.learner_id, v.id) = (g.agency_id, g.learner_id, g.visit_id)
        where {_rows.Sql("g")} and {Counts(toCome)} and v.on_day >= {Sql(AsOf)} and {where}
        """, row =>
    {
        var (goal, person, day) = (row.Int(), row.Int(), row.Day());
        if (Index.Probe(goal, person, day, Day.None) is >= 0 and var line)
            Planned.Add(line, person, new(day, 1));
    });

    /// <summary>All decisions.</summary>
    public void Decisions() => Copy($"""
        select d.id, coalesce(d.service_id, 0), coalesce(d.goal_id, 0), coalesce(d.owner_id, 0), d.on_day, d.amount,
               coalesce(d.sessions, {Decision.ByLength}), d.kind
        from portal.decisions d where {_rows.Sql("d")} and d.live order by d.id
        """, row =>
    {
        var (id, service, goal, owner) = (row.Int(), row.Int(), row.Int(), row.Int());
        var decision = new Decision(row.Day(), row.Int(), row.Int(), row.Code<DecisionKind>());
        if (service == 0)
            AddGoalDecision(id, goal, owner, decision);
        else if (Index.Service(service) is >= 0 and var line)
            _decisions.Add(line, id, decision);
    });

    /// <summary>What sealed periods brought forward, and what an agency brought along of it.</summary>
    /// <param name="look">Sees each as it is read.</param>
    public void Debts(Action<int, Debt>? look = null) => Copy($"""
        select d.id, coalesce(d.service_id, 0), coalesce(d.goal_id, 0), coalesce(d.owner_id, 0), d.period_id is null,
               d.on_day, d.since,
               d.make_up + d.meeting + d.undecided + d.paid_before, d.make_up_sessions + d.meeting_sessions + d.undecided_sessions + d.paid_before_sessions,
               d.paid_before, d.paid_before_sessions, coalesce(x.amount, 0), coalesce(x.sessions, 0)
        from portal.debts d left join lateral (
            select sum(x.amount)::int as amount, sum(x.sessions)::int as sessions from portal.debt_decisions x
            where (x.agency_id, x.learner_id, x.debt_id) = (d.agency_id, d.learner_id, d.id) and x.live and x.kind = 'NotOwed') x on true
        where {_rows.Sql("d")} and d.live order by d.on_day, d.id
        """, row =>
    {
        var (id, service, goal, owner, isFromFile) = (row.Int(), row.Int(), row.Int(), row.Int(), row.Flag());
        var debt = new Debt(row.Day(), row.Day(), new(row.Int(), row.Int()), new(row.Int(), row.Int()), new(row.Int(), row.Int())) { IsFromFile = isFromFile };
        if ((service != 0 ? Index.Service(service) : ProbeLine(goal, owner, debt.Day)) is not (>= 0 and var line))
            return;
        _debts.Add(line, id, debt);
        look?.Invoke(line, debt);
    });

    /// <summary>What an agency brought along: minutes in the window that was open then, as sessions of the promised length.</summary>
    /// <param name="isAsked">For which lines; null for all.</param>
    public void GivenBefore(Func<int, bool>? isAsked = null) => Copy($"""
        select b.service_id, b.as_of, b.given_before from portal.balances b
        where {_rows.Sql("b")} and b.given_before > 0 order by b.service_id, b.as_of, b.id
        """, row =>
    {
        var (line, day, minutes) = (Index.Service(row.Int()), row.Day(), row.Int());
        if (line < 0 || isAsked?.Invoke(line) == false)
            return;
        var version = Lines[line].Promise.On(day);
        var length = version.Sessions == 0 ? minutes : Math.Max(1, (version.Quantity + version.Sessions - 1) / version.Sessions);
        for (; minutes >= 2 * length; minutes -= length)
            Given.Add(line, 0, new(day, length));
        Given.Add(line, 0, new(day, minutes));
    });

    /// <summary>Numbers that a query answers with.</summary>
    public void Numbers(string query, Action<int> take) => Copy(query, row => take(row.Int()));

    /// <summary>SQL that holds for the rows of a table.</summary>
    public string In(string table) => _rows.Sql(table);

    public CommitmentFacts Finish()
    {
        TwoAtOnce.Run(_hasTwo, () => Given.Sort(Lines), () =>
        {
            Probed.Sort(Lines);
            Planned.Sort(Lines);
            _decisions.Sort(Lines.Length);
            _debts.Sort(Lines.Length);
        });
        return new(_rules, Lines, Index.ByLearner, new(Given, Probed, Planned), _decisions, _debts)
        {
            Otherwise = [.. _otherwise?.Checks ?? [], .. _probedOtherwise?.Checks ?? []],
        };
    }

    // What is for an award of compensatory services counts for no promise.
    private string Counts(ToCome toCome) => "v.live and v.service_id is not null and v.award_id is null and " + toCome switch
    {
        ToCome.Planned => "v.state = 'Planned'",
        ToCome.LoggedSince => $"v.state = 'Logged' and v.on_day > {Sql(AsOf)}",
        _ => $"(v.state = 'Planned' or (v.state = 'Logged' and v.on_day > {Sql(AsOf)}))",
    };

    private static string PlannedMinutes(ToCome toCome) => toCome switch
    {
        ToCome.Planned => "v.minutes",
        ToCome.LoggedSince => "coalesce(v.planned_minutes, v.minutes)",
        _ => "case when v.state = 'Planned' then v.minutes else coalesce(v.planned_minutes, v.minutes) end",
    };

    private void AddPlannedProbes(int learner, int person, int day)
    {
        foreach (var line in Index.ByLearner.Of(learner))
        {
            if (Lines[line].IsProbes && Lines[line].Promise.Dates.Holds(day) && Lines[line].IsNamed(person, day))
                Planned.Add(line, person, new(day, 1));
        }
    }

    /// <summary>A decision about a goal that names no owner is about each of them.</summary>
    private void AddGoalDecision(int id, int goal, int owner, in Decision decision)
    {
        var (first, count) = Index.Goal(goal);
        for (var line = first; line < first + count; line++)
        {
            var isAbout = owner == 0 || Lines[line].OwnerId is null || Lines[line].OwnerId == owner;
            if (isAbout && (count == 1 || Lines[line].Promise.Dates.Holds(decision.Day)))
                _decisions.Add(line, id, decision);
        }
    }

    private int ProbeLine(int goal, int owner, int day)
    {
        var (first, count) = Index.Goal(goal);
        for (var line = first; line < first + count; line++)
        {
            if ((Lines[line].OwnerId ?? 0) == owner && (count == 1 || Lines[line].Promise.Dates.Holds(day)))
                return line;
        }
        return -1;
    }

    private void TakeLines()
    {
        Index = new(Lines);
        if (_lookAt is { } days)
            (_otherwise, _probedOtherwise) = (new(Lines, days), new([], days)); // probes are held against owners, not against lines
    }

    private void Copy(string query, Action<CopyRows> row) => _reader.Read(query, row);
}
