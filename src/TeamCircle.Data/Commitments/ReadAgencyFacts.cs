using Npgsql;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads what a whole agency's audit of one period needs, and leaves the rest of the year alone.</summary>
/// <remarks>Leads to the same balances as <see cref="ReadFacts"/>: a random test holds the two together.</remarks>
internal sealed class ReadAgencyFacts
{
    private readonly FactRows _rows;
    private readonly PeriodReach _reach;
    private readonly AgencyRules _rules;
    private readonly DateRange _period;
    private readonly HashSet<int> _unordered = [];

    public ReadAgencyFacts(NpgsqlConnection connection, RowFilter agency, AgencyRules rules, int asOf, DateRange period)
    {
        (_rules, _period) = (rules, period);
        _rows = new FactRows(connection, agency, rules, asOf);
        _reach = new PeriodReach(_rows.Lines, period);
    }

    private string Near => $"between {FactRows.Sql(_reach.Days.First)} and {FactRows.Sql(Math.Min(_reach.Days.Last, _rows.AsOf))}";

    public CommitmentFacts Run()
    {
        _rows.GivenBefore();
        _rows.Sessions($"s.on_day {Near}", TakeGiven);
        _rows.Sessions($"s.pays_on is not null and s.on_day not {Near}", TakeGiven);
        _rows.Probes($"p.on_day {Near}", TakeGiven);
        _rows.Probes($"p.pays_on is not null and p.on_day not {Near}", TakeGiven);
        ReadPlanned();
        _rows.Decisions();
        WidenWhereSomethingCountsNowhere();
        ReadWide();
        return _rows.Finish();
    }

    private void TakeGiven(int line, int person, in Entry entry)
    {
        if (entry.Pays == Day.None || _reach.Keeps(line, entry))
            _rows.Given.Add(line, person, entry);
    }

    /// <summary>All that is planned up to the period's end, and what was never logged before the as-of day; after both the make-ups.</summary>
    private void ReadPlanned()
    {
        var last = FactRows.Sql(Math.Max(_period.Last, _rows.AsOf));
        var makeUps = new HashSet<(int, int)>();
        _rows.Visits($"(v.on_day <= {last} or v.pays_on is not null)", (int line, int person, in Entry entry) =>
        {
            _rows.Planned.Add(line, person, entry);
            if (entry.Pays != Day.None && !makeUps.Add((line, entry.Day)))
                _unordered.Add(line);
            if (entry.Pays != Day.None)
                _reach.Keeps(line, entry);
        });
        _rows.PlannedGoals($"v.on_day <= {last}");
        if (_unordered.Count == 0)
            return;
        _rows.Planned.Forget(_unordered.Contains);
        _rows.Visits($"v.service_id = any ({Ids(_unordered)}) order by v.on_day, v.start_time, v.id", (int line, int person, in Entry entry) =>
        {
            if (_unordered.Contains(line))
                _rows.Planned.Add(line, person, entry);
        });
    }

    /// <summary>What was given outside a line's dates, or on a day without school, may count nowhere, whatever the period.</summary>
    private void WidenWhereSomethingCountsNowhere()
    {
        var services = new Dictionary<int, int>();
        var goals = new List<(int Goal, int Line)>();
        for (var i = 0; i < _rows.Lines.Length; i++)
        {
            if (_rows.Lines[i].IsProbes)
                goals.Add((_rows.Lines[i].Id, i));
            else
                services[_rows.Lines[i].Id] = i;
        }
        var byGoal = goals.ToLookup(g => g.Goal, g => g.Line);
        _rows.Numbers(Elsewhere("sessions", "service_id", "s.live and s.outcome = 'Given'", "services"), id => _reach.Widen(services[id]));
        _rows.Numbers(Elsewhere("probes", "goal_id", "s.live and s.kind = 'Probe'", "goals"), id =>
        {
            foreach (var line in byGoal[id])
                _reach.Widen(line);
        });
    }

    private string Elsewhere(string table, string column, string counts, string parents)
    {
        var asOf = FactRows.Sql(_rows.AsOf);
        var rows = $"from portal.{table} s where {_rows.In("s")} and {counts} and s.on_day <= {asOf} and s.on_day not {Near}";
        return $"""
            select v.id from portal.{parents} v where {_rows.In("v")} and v.live and (
                exists (select {rows} and s.{column} = v.id and s.on_day < v.from_day)
                or (v.to_day < {asOf} and exists (select {rows} and s.{column} = v.id and s.on_day > v.to_day)))
            union select s.{column} {rows} and ({WithoutSchool("s.on_day")})
            """;
    }

    /// <summary>SQL for days that are no school day of an ordinary line.</summary>
    private string WithoutSchool(string column)
    {
        var school = _rules.Calendar.For(LineTerms.Regular);
        if (school.LastTermDay == Day.None)
            return "true";
        var days = new List<int>();
        for (var day = school.FirstTermDay; day <= Math.Min(school.LastTermDay, _rows.AsOf); day++)
        {
            if (!school.IsScheduled(day))
                days.Add(day);
        }
        var list = string.Join(',', days.Select(d => $"{Day.Date(d):uuuu-MM-dd}"));
        return $"{column} < {FactRows.Sql(school.FirstTermDay)} or {column} > {FactRows.Sql(school.LastTermDay)} or {column} = any ('{{{list}}}'::date[])";
    }

    private void ReadWide()
    {
        var wide = Enumerable.Range(0, _rows.Lines.Length).Where(_reach.IsWide).ToList();
        if (wide.Count == 0)
            return;
        _rows.Given.Forget(_reach.IsWide);
        var (services, goals) = (wide.Where(i => !_rows.Lines[i].IsProbes), wide.Where(i => _rows.Lines[i].IsProbes));
        _rows.GivenBefore(_reach.IsWide);
        _rows.Sessions($"s.service_id = any ({Ids(services)}) and s.on_day <= {FactRows.Sql(_rows.AsOf)} order by s.service_id, s.on_day, s.start_time, s.id", TakeWide);
        _rows.Probes($"p.goal_id = any ({Ids(goals)}) and p.on_day <= {FactRows.Sql(_rows.AsOf)}", TakeWide);
    }

    private void TakeWide(int line, int person, in Entry entry)
    {
        if (_reach.IsWide(line))
            _rows.Given.Add(line, person, entry);
    }

    private string Ids(IEnumerable<int> lines) => $"'{{{string.Join(',', lines.Select(l => _rows.Lines[l].Id).Distinct())}}}'::int[]";
}
