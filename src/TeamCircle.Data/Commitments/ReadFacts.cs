using Npgsql;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Turns rows into what the ledger takes, all within one transaction; every row of the learners asked for.</summary>
internal sealed class ReadFacts
{
    private readonly NpgsqlConnection _connection;
    private readonly RowFilter _rows;
    private readonly AgencyRules _rules;
    private readonly int _asOf;
    private readonly CommitmentLine[] _lines;
    private readonly LineIndex _index;
    private readonly EntriesByLine _given = new();
    private readonly EntriesByLine _planned = new();
    private readonly ByLine<Decision> _decisions = new();
    private readonly ByLine<int> _decisionIds = new();

    /// <param name="asOf">The as-of day: visits after it count as planned, also where they have been logged since.</param>
    public ReadFacts(NpgsqlConnection connection, RowFilter rows, AgencyRules rules, int asOf)
    {
        (_connection, _rows, _rules, _asOf) = (connection, rows, rules, asOf);
        _lines = new ReadLines(connection, rows, rules.Windows()).Run();
        _index = new LineIndex(_lines);
    }

    public CommitmentFacts Run()
    {
        AddGivenBefore();
        AddSessions();
        AddProbes();
        AddVisits();
        AddPlannedGoals();
        AddDecisions();
        _given.Sort(_lines);
        _planned.Sort(_lines);
        _decisions.Sort(_lines.Length);
        _decisionIds.Sort(_lines.Length);
        return new(_rules, _lines, _given, _planned, _decisions, _decisionIds);
    }

    private void AddSessions() => Copy($"""
        select s.service_id, s.provider_id, {CopyRows.Day("s.on_day")}, s.credited, {CopyRows.Day("s.pays_on")}
        from portal.sessions s where {_rows.Sql("s")} and s.live and s.outcome = 'Given'
        order by s.on_day, s.start_time, s.id
        """, row => Add(_given, _index.Service(row.Int()), row.Int(), new(row.Int(), row.Int(), row.Int())));

    private void AddProbes() => Copy($"""
        select p.goal_id, p.provider_id, {CopyRows.Day("p.on_day")}, {CopyRows.Day("p.pays_on")}
        from portal.probes p where {_rows.Sql("p")} and p.live and p.kind = 'Probe'
        """, row =>
    {
        var (goal, person, day, pays) = (row.Int(), row.Int(), row.Int(), row.Int());
        Add(_given, _index.Probe(goal, person, day, pays), person, new(day, 1, pays));
    });

    /// <summary>Visits to come; a visit to come that names no goals stands for a probe of each goal that its provider owns.</summary>
    private void AddVisits() => Copy($"""
        select v.service_id, v.learner_id, v.provider_id, {CopyRows.Day("v.on_day")}, {PlannedMinutes}, {CopyRows.Day("v.pays_on")},
               exists (select from portal.visit_goals g where g.agency_id = v.agency_id and g.visit_id = v.id)
        from portal.visits v where {_rows.Sql("v")} and {IsPlanned}
        order by v.on_day, v.start_time, v.id
        """, row =>
    {
        var (service, learner, person) = (row.Int(), row.Int(), row.Int());
        var entry = new Entry(row.Int(), row.Int(), row.Int());
        Add(_planned, _index.Service(service), person, entry);
        if (!row.Flag() && entry.Day >= _asOf)
            AddPlannedProbes(learner, person, entry.Day);
    });

    private void AddPlannedProbes(int learner, int person, int day)
    {
        foreach (var line in _index.ProbesOf[learner])
        {
            if (_lines[line].Promise.Dates.Holds(day) && _lines[line].IsNamed(person, day))
                Add(_planned, line, person, new(day, 1));
        }
    }

    private void AddPlannedGoals() => Copy($"""
        select g.goal_id, v.provider_id, {CopyRows.Day("v.on_day")}
        from portal.visit_goals g join portal.visits v on (v.agency_id, v.learner_id, v.id) = (g.agency_id, g.learner_id, g.visit_id)
        where {_rows.Sql("g")} and {IsPlanned} and v.on_day >= {Sql(_asOf)}
        """, row =>
    {
        var (goal, person, day) = (row.Int(), row.Int(), row.Int());
        Add(_planned, _index.Probe(goal, person, day, Day.None), person, new(day, 1));
    });

    private void AddDecisions() => Copy($"""
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

    /// <summary>A decision about a goal that names no owner is about each of them.</summary>
    private void AddGoalDecision(int id, int goal, int owner, in Decision decision)
    {
        var (first, count) = _index.Goal(goal);
        for (var line = first; line < first + count; line++)
        {
            var isAbout = owner == 0 || _lines[line].OwnerId is null || _lines[line].OwnerId == owner;
            if (isAbout && (count == 1 || _lines[line].Promise.Dates.Holds(decision.Day)))
                AddDecision(id, line, decision);
        }
    }

    private void AddDecision(int id, int line, in Decision decision)
    {
        _decisions.Add(line, decision);
        _decisionIds.Add(line, id);
    }

    /// <summary>What an agency brought along: minutes in the window that was open then, as sessions of the promised length.</summary>
    private void AddGivenBefore() => Copy($"""
        select b.service_id, {CopyRows.Day("b.as_of")}, b.given_before from portal.balances b
        where {_rows.Sql("b")} and b.given_before > 0 order by b.service_id, b.as_of, b.id
        """, row =>
    {
        var (line, day, minutes) = (_index.Service(row.Int()), row.Int(), row.Int());
        var version = _lines[line].Promise.On(day);
        var length = version.Sessions == 0 ? minutes : Math.Max(1, (version.Quantity + version.Sessions - 1) / version.Sessions);
        for (; minutes >= 2 * length; minutes -= length)
            Add(_given, line, 0, new(day, length));
        Add(_given, line, 0, new(day, minutes));
    });

    /// <summary>Not logged; seen from an earlier day also what was logged after it.</summary>
    private string IsPlanned => $"v.live and (v.state = 'Planned' or (v.state = 'Logged' and v.on_day > {Sql(_asOf)}))";

    private const string PlannedMinutes = "case when v.state = 'Planned' then v.minutes else coalesce(v.planned_minutes, v.minutes) end";

    private static string Sql(int day) => $"date '{Day.Date(day):uuuu-MM-dd}'";

    private void Copy(string query, Action<CopyRows> row) => CopyRows.Read(_connection, query, row);

    private static void Add(EntriesByLine entries, int line, int person, in Entry entry)
    {
        if (line >= 0)
            entries.Add(line, person, entry);
    }
}
