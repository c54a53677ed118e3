using Npgsql;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads what a whole agency's audit of one period needs, and leaves the rest of the year alone.</summary>
/// <remarks>Two connections that see the same share the reading, so that two processors of the database and two of the portal work on it; with
/// one it goes one after the other. Leads to the same balances as <see cref="ReadFacts"/>: a random test holds the two together.</remarks>
internal sealed class ReadAgencyFacts
{
    private readonly FactRows _rows, _beside;
    private readonly bool _hasTwo;
    private readonly PeriodReach _reach;
    private readonly AgencyRules _rules;
    private readonly DateRange _period;
    private readonly HashSet<int> _unordered = [];

    /// <param name="beside">A second connection that sees the same; null where there is none.</param>
    public ReadAgencyFacts(NpgsqlConnection connection, NpgsqlConnection? beside, RowFilter agency, AgencyRules rules, int asOf, DateRange period)
    {
        (_rules, _period, _hasTwo) = (rules, period, beside is not null);
        var (here, there) = (new OneByOne(connection), beside is null ? null : new OneByOne(beside));
        _rows = new FactRows(here, there, agency, rules, asOf, period with { Last = Math.Min(period.Last, asOf) });
        _beside = _rows.Over(there ?? here);
        _reach = new PeriodReach(_rows.Lines, period);
    }

    private string Near => $"between {FactRows.Sql(_reach.Days.First)} and {FactRows.Sql(Math.Min(_reach.Days.Last, _rows.AsOf))}";

    public CommitmentFacts Run()
    {
        _rows.GivenBefore();
        _rows.Debts((line, debt) => _reach.BringForward(line, debt));
        var sums = new List<(int Line, Entry Sum)>();
        TwoAtOnce.Run(
            _hasTwo,
            () =>
            {
                ReadSessions();
                ReadSums((line, sum) => sums.Add((line, sum)));
                WidenServices();
            },
            () =>
            {
                ReadProbes();
                ReadPlanned();
                _beside.Decisions();
                WidenGoals();
            });
        ReadWide();
        foreach (var (line, sum) in sums)
        {
            if (_reach.IsSummed(line))
                _rows.Given.Add(line, 0, sum);
        }
        return _rows.Finish();
    }

    private void ReadSessions()
    {
        _rows.Sessions($"s.on_day {Near}", TakeGiven, look: true);
        _rows.Sessions($"s.pays_on is not null and s.on_day not {Near}", TakeGiven);
    }

    private void ReadProbes()
    {
        _beside.Probes($"p.on_day {Near}", TakeProbe, look: true);
        _beside.Probes($"p.pays_on is not null and p.on_day not {Near}", TakeProbe);
    }

    private void TakeGiven(int line, int person, in Entry entry)
    {
        if (entry.Pays == Day.None || _reach.Keeps(line, entry))
            _rows.Given.Add(line, person, entry);
    }

    private void TakeProbe(int line, int person, in Entry entry)
    {
        if (entry.Pays == Day.None || _reach.Keeps(line, entry))
            _rows.Probed.Add(line, person, entry);
    }

    /// <summary>All that is planned up to the period's end, and what was never logged before the as-of day; after both the make-ups.</summary>
    private void ReadPlanned()
    {
        var last = Math.Max(_period.Last, _rows.AsOf);
        var makeUps = new HashSet<(int, int)>();
        foreach (var toCome in (ReadOnlySpan<ToCome>)[ToCome.Planned, ToCome.LoggedSince])
        {
            if (toCome == ToCome.Planned || last > _rows.AsOf)
                _beside.Visits(toCome, $"v.on_day <= {FactRows.Sql(last)}", Take);
            _beside.Visits(toCome, $"v.pays_on is not null and v.on_day > {FactRows.Sql(last)}", Take);
            _beside.PlannedGoals(toCome, $"v.on_day <= {FactRows.Sql(last)}");
        }
        ReadUnordered();

        void Take(int line, int person, in Entry entry)
        {
            _rows.Planned.Add(line, person, entry);
            if (entry.Pays == Day.None)
                return;
            if (!makeUps.Add((line, entry.Day)))
                _unordered.Add(line);
            _reach.Keeps(line, entry);
        }
    }

    /// <summary>Reads the planned visits of those lines again, in order, of which two make-ups fall on one day.</summary>
    private void ReadUnordered()
    {
        if (_unordered.Count == 0)
            return;
        _rows.Planned.Forget(_unordered.Contains);
        _beside.Visits(ToCome.Either, $"v.service_id = any ({Ids(_unordered)}) order by v.on_day, v.start_time, v.id", (int line, int person, in Entry entry) =>
        {
            if (_unordered.Contains(line))
                _rows.Planned.Add(line, person, entry);
        });
    }

    /// <summary>What was given outside a line's dates, or on a day without school, may count nowhere, whatever the period.</summary>
    private void WidenServices() => _rows.Numbers(
        Elsewhere("sessions", "service_id", "s.live and s.outcome = 'Given' and s.award_id is null", "services"), id => _reach.Widen(_rows.Index.Service(id)));

    /// <inheritdoc cref="WidenServices"/>
    private void WidenGoals()
    {
        _beside.Numbers(Elsewhere("probes", "goal_id", "s.live and s.kind = 'Probe'", "goals"), id =>
        {
            var (first, count) = _rows.Index.Goal(id);
            for (var line = first; line < first + count; line++)
                _reach.Widen(line);
        });
    }

    /// <summary>SQL for the services or goals of which something was given far from the period, outside their dates or on no school day.</summary>
    /// <remarks>Whatever lies before the first term or after the last is asked for by its day; so only lines whose dates begin or end
    /// within the terms have to be looked at one by one. Of the days without school each is asked by itself whether there is anything at all, mostly
    /// there is not: for a long list of days the planner expects a quarter of the table, and reads all of it.</remarks>
    private string Elsewhere(string table, string column, string counts, string parents)
    {
        var school = _rules.Calendar.For(LineTerms.Regular);
        var (first, last, asOf) = (FactRows.Sql(school.FirstTermDay), FactRows.Sql(school.LastTermDay), FactRows.Sql(_rows.AsOf));
        var rows = $"from portal.{table} s where {_rows.In("s")} and {counts} and s.on_day <= {asOf} and s.on_day not {Near}";
        if (school.LastTermDay == Day.None)
            return $"select distinct s.{column} {rows}";
        return $"""
            select v.id from portal.{parents} v where {_rows.In("v")} and v.live and (
                (v.from_day > {first} and exists (select {rows} and s.{column} = v.id and s.on_day < v.from_day))
                or (v.to_day < least({last}, {asOf}) and exists (select {rows} and s.{column} = v.id and s.on_day > v.to_day)))
            union select s.{column} {rows} and s.on_day < {first}
            union select s.{column} {rows} and s.on_day > {last}
            union select s.{column} {rows} and s.on_day = any (array(
                select d.day from unnest({WithoutSchool(school)}) as d (day) where (select true {rows} and s.on_day = d.day limit 1)))
            """;
    }

    /// <summary>SQL for the days within the terms that are no school day of an ordinary line.</summary>
    private string WithoutSchool(SchoolDays school)
    {
        var days = Enumerable.Range(school.FirstTermDay, Math.Max(0, Math.Min(school.LastTermDay, _rows.AsOf) - school.FirstTermDay + 1))
            .Where(day => !school.IsScheduled(day));
        return $"'{{{string.Join(',', days.Select(d => $"{Day.Date(d):uuuu-MM-dd}"))}}}'::date[]";
    }

    private void ReadWide()
    {
        var wide = Enumerable.Range(0, _rows.Lines.Length).Where(_reach.IsWide).ToList();
        if (wide.Count == 0)
            return;
        _rows.Given.Forget(_reach.IsWide);
        _rows.Probed.Forget(_reach.IsWide);
        var (services, goals) = (wide.Where(i => !_rows.Lines[i].IsProbes), wide.Where(i => _rows.Lines[i].IsProbes));
        _rows.GivenBefore(_reach.IsWide);
        TwoAtOnce.Run(
            _hasTwo,
            () => _rows.Sessions($"s.service_id = any ({Ids(services)}) and s.on_day <= {FactRows.Sql(_rows.AsOf)} order by s.service_id, s.on_day, s.start_time, s.id", IfWide(_rows.Given)),
            () => _beside.Probes($"p.goal_id = any ({Ids(goals)}) and p.on_day <= {FactRows.Sql(_rows.AsOf)}", IfWide(_rows.Probed)));
    }

    private TakeEntry IfWide(EntriesByLine entries) => (int line, int person, in Entry entry) =>
    {
        if (_reach.IsWide(line))
            entries.Add(line, person, entry);
    };

    /// <summary>Sums of plan years outside the days that are read; those of a line that turns out to be wide are of no use.</summary>
    private void ReadSums(Action<int, Entry> take)
    {
        var summed = Enumerable.Range(0, _rows.Lines.Length).Where(_reach.IsSummed).ToList();
        if (summed.Count == 0)
            return;
        var before = new DateRange(summed.Min(i => _rows.Lines[i].Promise.Dates.First), Math.Min(_reach.Days.First - 1, _rows.AsOf));
        _rows.SessionSums(Ids(summed), before, take);
        if (_rows.AsOf > _reach.Days.Last)
            _rows.SessionSums(Ids(summed), new(_reach.Days.Last + 1, _rows.AsOf), take);
    }

    private string Ids(IEnumerable<int> lines) => $"'{{{string.Join(',', lines.Select(l => _rows.Lines[l].Id).Distinct())}}}'::int[]";
}
