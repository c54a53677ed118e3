using Npgsql;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Takes an entry of a line.</summary>
internal delegate void TakeEntry(int line, int person, in Entry entry);

/// <summary>The queries that turn rows into what the ledger takes, and where their answers gather; all within one transaction.</summary>
internal sealed class FactRows
{
    private readonly NpgsqlConnection _connection;
    private readonly RowFilter _rows;
    private readonly AgencyRules _rules;
    private readonly LineIndex _index;
    private readonly ByLine<Decision> _decisions = new();
    private readonly ByLine<int> _decisionIds = new();

    /// <param name="asOf">The as-of day: visits after it count as planned, also where they have been logged since.</param>
    public FactRows(NpgsqlConnection connection, RowFilter rows, AgencyRules rules, int asOf)
    {
        (_connection, _rows, _rules, AsOf) = (connection, rows, rules, asOf);
        Lines = new ReadLines(connection, rows, rules.Windows()).Run();
        _index = new LineIndex(Lines);
    }

    public int AsOf { get; }

    public CommitmentLine[] Lines { get; }

    public EntriesByLine Given { get; } = new();

    public EntriesByLine Planned { get; } = new();

    /// <summary>SQL for a day.</summary>
    public static string Sql(int day) => $"date '{Day.Date(day):uuuu-MM-dd}'";

    /// <summary>Visits given.</summary>
    /// <param name="where">Narrows the rows of sessions <c>s</c>, and may say their order.</param>
    public void Sessions(string where, TakeEntry take) => Copy($"""
        select s.service_id, s.provider_id, {CopyRows.Day("s.on_day")}, s.credited, {CopyRows.Day("s.pays_on")}
        from portal.sessions s where {_rows.Sql("s")} and s.live and s.outcome = 'Given' and {where}
        """, row =>
    {
        var (line, person) = (_index.Service(row.Int()), row.Int());
        var entry = new Entry(row.Int(), row.Int(), row.Int());
        if (line >= 0)
            take(line, person, entry);
    });

    /// <summary>Probes that count for a commitment.</summary>
    /// <param name="where">Narrows the rows of probes <c>p</c>.</param>
    public void Probes(string where, TakeEntry take) => Copy($"""
        select p.goal_id, p.provider_id, {CopyRows.Day("p.on_day")}, {CopyRows.Day("p.pays_on")}
        from portal.probes p where {_rows.Sql("p")} and p.live and p.kind = 'Probe' and {where}
        """, row =>
    {
        var (goal, person, day, pays) = (row.Int(), row.Int(), row.Int(), row.Int());
        if (_index.Probe(goal, person, day, pays) is >= 0 and var line)
            take(line, person, new(day, 1, pays));
    });

    /// <summary>Visits to come; one that names no goals stands for a probe of each goal that its provider owns.</summary>
    /// <param name="where">Narrows the rows of visits <c>v</c>, and may say their order.</param>
    public void Visits(string where, TakeEntry take) => Copy($"""
        select v.service_id, v.learner_id, v.provider_id, {CopyRows.Day("v.on_day")}, {PlannedMinutes}, {CopyRows.Day("v.pays_on")},
               exists (select from portal.visit_goals g where g.agency_id = v.agency_id and g.visit_id = v.id)
        from portal.visits v where {_rows.Sql("v")} and {IsPlanned} and {where}
        """, row =>
    {
        var (line, learner, person) = (_index.Service(row.Int()), row.Int(), row.Int());
        var entry = new Entry(row.Int(), row.Int(), row.Int());
        if (line >= 0)
            take(line, person, entry);
        if (!row.Flag() && entry.Day >= AsOf)
            AddPlannedProbes(learner, person, entry.Day);
    });

    /// <summary>Goals named by visits to come.</summary>
    /// <param name="where">Narrows the rows of visits <c>v</c>.</param>
    public void PlannedGoals(string where) => Copy($"""
        select g.goal_id, v.provider_id, {CopyRows.Day("v.on_day")}
        from portal.visit_goals g join portal.visits v on (v.agency_id, v.learner_id, v.id) = (g.agency_id, g.learner_id, g.visit_id)
        where {_rows.Sql("g")} and {IsPlanned} and v.on_day >= {Sql(AsOf)} and {where}
        """, row =>
    {
        var (goal, person, day) = (row.Int(), row.Int(), row.Int());
        if (_index.Probe(goal, person, day, Day.None) is >= 0 and var line)
            Planned.Add(line, person, new(day, 1));
    });

    /// <summary>All decisions.</summary>
    public void Decisions() => Copy($"""
        select d.id, coalesce(d.service_id, 0), coalesce(d.goal_id, 0), coalesce(d.owner_id, 0),
               {CopyRows.Day("d.on_day")}, d.amount, coalesce(d.sessions, {Decision.ByLength}), d.kind
        from portal.decisions d where {_rows.Sql("d")} and d.live order by d.id
        """, row =>
    {
        var (id, service, goal, owner) = (row.Int(), row.Int(), row.Int(), row.Int());
        var decision = new Decision(row.Int(), row.Int(), row.Int(), row.Code<DecisionKind>());
        if (service == 0)
            AddGoalDecision(id, goal, owner, decision);
        else if (_index.Service(service) is >= 0 and var line)
            AddDecision(id, line, decision);
    });

    /// <summary>What an agency brought along: minutes in the window that was open then, as sessions of the promised length.</summary>
    /// <param name="isAsked">For which lines; null for all.</param>
    public void GivenBefore(Func<int, bool>? isAsked = null) => Copy($"""
        select b.service_id, {CopyRows.Day("b.as_of")}, b.given_before from portal.balances b
        where {_rows.Sql("b")} and b.given_before > 0 order by b.service_id, b.as_of, b.id
        """, row =>
    {
        var (line, day, minutes) = (_index.Service(row.Int()), row.Int(), row.Int());
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
        Given.Sort(Lines);
        Planned.Sort(Lines);
        _decisions.Sort(Lines.Length);
        _decisionIds.Sort(Lines.Length);
        return new(_rules, Lines, Given, Planned, _decisions, _decisionIds);
    }

    /// <summary>For a service and not logged; seen from an earlier day also what was logged after it.</summary>
    private string IsPlanned => $"v.live and v.service_id is not null and (v.state = 'Planned' or (v.state = 'Logged' and v.on_day > {Sql(AsOf)}))";

    private const string PlannedMinutes = "case when v.state = 'Planned' then v.minutes else coalesce(v.planned_minutes, v.minutes) end";

    private void AddPlannedProbes(int learner, int person, int day)
    {
        foreach (var line in _index.ProbesOf[learner])
        {
            if (Lines[line].Promise.Dates.Holds(day) && Lines[line].IsNamed(person, day))
                Planned.Add(line, person, new(day, 1));
        }
    }

    /// <summary>A decision about a goal that names no owner is about each of them.</summary>
    private void AddGoalDecision(int id, int goal, int owner, in Decision decision)
    {
        var (first, count) = _index.Goal(goal);
        for (var line = first; line < first + count; line++)
        {
            var isAbout = owner == 0 || Lines[line].OwnerId is null || Lines[line].OwnerId == owner;
            if (isAbout && (count == 1 || Lines[line].Promise.Dates.Holds(decision.Day)))
                AddDecision(id, line, decision);
        }
    }

    private void AddDecision(int id, int line, in Decision decision)
    {
        _decisions.Add(line, decision);
        _decisionIds.Add(line, id);
    }

    private void Copy(string query, Action<CopyRows> row) => CopyRows.Read(_connection, query, row);
}
