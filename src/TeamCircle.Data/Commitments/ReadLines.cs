using Npgsql;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads services and probe commitments as promises: services in the order they came, then the goals.</summary>
internal sealed class ReadLines(NpgsqlConnection connection, RowFilter rows, WindowCatalog windows)
{
    private readonly List<CommitmentLine> _lines = [];
    private readonly HashSet<ServiceTerms> _terms = [];

    /// <summary>Who is named for each goal, also on days on which no probes of it are promised.</summary>
    public Groups<Named> Owners { get; private set; } = new();

    public CommitmentLine[] Run()
    {
        AddServices();
        AddProbes();
        return [.. _lines];
    }

    private void AddServices()
    {
        var versions = Versions();
        var named = People($"select a.service_id, a.person_id, {CopyRows.Day("a.from_day")}, {CopyRows.Day("a.to_day")} " +
            $"from portal.assignments a where {rows.Sql("a")} and a.live order by a.service_id, a.from_day, a.id");
        CopyRows.Read(connection, $"""
            select s.id, s.learner_id, s.code, s.position, {CopyRows.Code<Discipline>("s.discipline")}, {CopyRows.Code<ServiceKind>("s.kind")},
                   {CopyRows.Code<Place>("s.place")}, {CopyRows.Code<SessionFormat>("s.format")}, {CopyRows.Code<LineTerms>("s.terms")},
                   {CopyRows.Code<ShortWindow>("s.short_window")}, {CopyRows.Code<Wording>("s.wording")},
                   {CopyRows.Code<EveryUnit>("s.every_unit")}, s.every_count, {CopyRows.Day("s.from_day")}, {CopyRows.Day("s.to_day")},
                   {CopyRows.Day("p.start_day")}, {CopyRows.Day("p.end_day")}, l.most_minutes_a_day
            from portal.services s
            join portal.plans p on (p.agency_id, p.learner_id, p.id) = (s.agency_id, s.learner_id, s.plan_id)
            join portal.learners l on (l.agency_id, l.id) = (s.agency_id, s.learner_id)
            where {rows.Sql("s")} and s.live order by s.id
            """, row => _lines.Add(Service(row, versions, named)));
    }

    private CommitmentLine Service(CopyRows row, Groups<PromiseVersion> versions, Groups<Named> named)
    {
        var (id, learner, code, position) = (row.Int(), row.Int(), row.Text(), row.Int());
        var service = Shared(new(row.Code<Discipline>(), row.Code<ServiceKind>(), row.Code<Place>(), row.Code<SessionFormat>()));
        var (terms, shortWindow, wording) = (row.Code<LineTerms>(), row.CodeOrNull<ShortWindow>(), row.CodeOrNull<Wording>());
        var every = new Every(row.Code<EveryUnit>(), row.Int());
        var (dates, plan) = (new DateRange(row.Int(), row.Int()), new DateRange(row.Int(), row.Int()));
        var most = row.Int();
        var promise = new Promise(every, dates, GoalLines.Within(dates, versions.Of(id))) { Terms = terms, ShortWindow = shortWindow, Wording = wording };
        return new()
        {
            IsProbes = false,
            Id = id,
            LearnerId = learner,
            Code = code,
            Position = position,
            Named = [.. named.Of(id)],
            Promise = promise,
            Windows = windows.Of(promise, plan),
            Plan = plan,
            DailyLimit = service.Kind == ServiceKind.Direct ? most : null,
            Service = service,
        };
    }

    /// <summary>One object for all services of the same terms.</summary>
    private ServiceTerms Shared(ServiceTerms terms)
    {
        if (_terms.TryGetValue(terms, out var known))
            return known;
        _terms.Add(terms);
        return terms;
    }

    private Groups<PromiseVersion> Versions()
    {
        var versions = new Groups<PromiseVersion>();
        CopyRows.Read(connection, $"""
            select v.service_id, {CopyRows.Day("v.from_day")}, v.quantity, coalesce(v.sessions, 0) from portal.service_versions v
            where {rows.Sql("v")} and v.live order by v.service_id, v.from_day
            """, row => versions.Add(row.Int(), new(row.Int(), row.Int(), row.Int())));
        return versions;
    }

    private Groups<Named> People(string query)
    {
        var people = new Groups<Named>();
        CopyRows.Read(connection, query, row => people.Add(row.Int(), new(row.Int(), new(row.Int(), row.Int()))));
        return people;
    }

    private void AddProbes()
    {
        var goals = new GoalLines(windows, _lines);
        var commitments = new Groups<ProbeVersion>();
        CopyRows.Read(connection, $"""
            select c.goal_id, {CopyRows.Day("c.from_day")}, c.probes, {CopyRows.Code<EveryUnit>("c.every_unit")}, c.every_count, c.by_each
            from portal.probe_commitments c where {rows.Sql("c")} and c.live order by c.goal_id, c.from_day
            """, row => commitments.Add(row.Int(),
                new(new(row.Int(), row.Int()), new(row.Code<EveryUnit>(), row.Int()), row.Flag())));
        Owners = People($"select o.goal_id, o.person_id, {CopyRows.Day("o.from_day")}, {CopyRows.Day("o.to_day")} " +
            $"from portal.goal_owners o where {rows.Sql("o")} and o.live order by o.goal_id, o.position, o.id");
        CopyRows.Read(connection, $"""
            select g.id, g.learner_id, g.code, g.position, g.area, {CopyRows.Day("g.from_day")}, {CopyRows.Day("g.to_day")},
                   {CopyRows.Day("p.start_day")}, {CopyRows.Day("p.end_day")}
            from portal.goals g join portal.plans p on (p.agency_id, p.learner_id, p.id) = (g.agency_id, g.learner_id, g.plan_id)
            where {rows.Sql("g")} and g.live order by g.id
            """, row =>
        {
            var goal = new PlannedGoal(row.Int(), row.Int(), row.Text(), row.Int(), row.Text(), new(row.Int(), row.Int()), new(row.Int(), row.Int()));
            goals.Add(goal, commitments.Of(goal.Id), Owners.Of(goal.Id));
        });
    }
}
