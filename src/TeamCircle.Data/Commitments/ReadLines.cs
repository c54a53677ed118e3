using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Commitments;

/// <summary>Reads services and probe commitments as promises: services in the order they came, then the goals.</summary>
/// <param name="beside">Reads over a second connection that sees the same, by which a part is read meanwhile; null where there is none.</param>
internal sealed class ReadLines(IRowReader reader, IRowReader? beside, RowFilter rows, AgencyRules rules)
{
    private readonly Dictionary<(Discipline, ServiceKind, Place, SessionFormat), ServiceTerms> _terms = [];
    private readonly List<CommitmentLine> _services = [], _probes = [];
    private readonly Groups<Named> _named = new();
    private readonly Groups<PromiseVersion> _versions = new();

    /// <summary>The lines, once they are read.</summary>
    public CommitmentLine[] Lines { get; private set; } = [];

    /// <summary>Who is named for each goal, also on days on which no probes of it are promised.</summary>
    public Groups<Named> Owners { get; } = new();

    /// <summary>The lines of few learners by one statement.</summary>
    public static Task<CommitmentLine[]> FewAsync(PortalDb db, RowFilter learners, AgencyRules rules, CancellationToken stop) =>
        FewAsync(db, learners, rules, lines => lines.Run(), stop);

    /// <summary>The services of few learners by one statement.</summary>
    public static Task<CommitmentLine[]> ServicesAsync(PortalDb db, RowFilter learners, AgencyRules rules, CancellationToken stop) =>
        FewAsync(db, learners, rules, lines => lines.AskServices(), stop);

    private static async Task<CommitmentLine[]> FewAsync(PortalDb db, RowFilter learners, AgencyRules rules, Action<ReadLines> ask, CancellationToken stop)
    {
        var bound = learners with { IsBound = true };
        var joined = new JoinedRows(db, bound);
        var lines = new ReadLines(joined, null, bound, rules);
        ask(lines);
        await joined.RunAsync(stop);
        return lines.Lines;
    }

    public void Run()
    {
        var other = beside ?? reader;
        TwoAtOnce.Run(beside is not null, ReadNamed, () => ReadVersions(other));
        TwoAtOnce.Run(beside is not null, ReadServices, () => ReadProbes(other));
        reader.Then(TakeLines);
    }

    private void TakeLines()
    {
        Lines = [.. _services, .. _probes];
        Array.Sort([.. _services.Select(s => s.Id)], Lines, 0, _services.Count); // not in the query: tens of thousands do not fit into what the database sorts in memory
    }

    private void AskServices()
    {
        ReadNamed();
        ReadVersions(reader);
        ReadServices();
        reader.Then(() => Lines = [.. _services]);
    }

    private void ReadNamed() => People(reader, _named, "select a.service_id, a.person_id, a.from_day, a.to_day " +
        $"from portal.assignments a where {rows.Sql("a")} and a.live order by a.service_id, a.from_day, a.id");

    private void ReadServices()
    {
        var promises = new SharedPromises(rules.Windows());
        reader.Read($"""
            select s.id, s.learner_id, s.code, s.position, s.discipline, s.kind, s.place, s.format, s.terms, s.short_window, s.wording,
                   s.every_unit, s.every_count, s.from_day, s.to_day, p.start_day, p.end_day, l.most_minutes_a_day
            from portal.services s
            join portal.plans p on (p.agency_id, p.learner_id, p.id) = (s.agency_id, s.learner_id, s.plan_id)
            join portal.learners l on (l.agency_id, l.id) = (s.agency_id, s.learner_id)
            where {rows.Sql("s")} and s.live
            """, row => _services.Add(Service(row, promises)));
    }

    private CommitmentLine Service(CopyRows row, SharedPromises promises)
    {
        var (id, learner, code, position) = (row.Int(), row.Int(), row.Text(), row.Int());
        var service = Shared(row.Code<Discipline>(), row.Code<ServiceKind>(), row.Code<Place>(), row.Code<SessionFormat>());
        var (terms, shortWindow, wording) = (row.Code<LineTerms>(), row.CodeOrNull<ShortWindow>(), row.CodeOrNull<Wording>());
        var every = new Every(row.Code<EveryUnit>(), row.Int());
        var (dates, plan) = (new DateRange(row.Day(), row.Day()), new DateRange(row.Day(), row.Day()));
        var most = row.Int();
        var (promise, windows) = promises.Of(every, dates, plan, _versions.Of(id), terms, shortWindow, wording);
        return new()
        {
            IsProbes = false,
            Id = id,
            LearnerId = learner,
            Code = code,
            Position = position,
            Named = [.. _named.Of(id)],
            Promise = promise,
            Windows = windows,
            Plan = plan,
            DailyLimit = service.Kind == ServiceKind.Direct ? most : null,
            Service = service,
        };
    }

    /// <summary>One object for all services of the same terms.</summary>
    private ServiceTerms Shared(Discipline discipline, ServiceKind kind, Place place, SessionFormat format)
    {
        if (!_terms.TryGetValue((discipline, kind, place, format), out var known))
            _terms[(discipline, kind, place, format)] = known = new(discipline, kind, place, format);
        return known;
    }

    private void ReadVersions(IRowReader from) => from.Read($"""
        select v.service_id, v.from_day, v.quantity, coalesce(v.sessions, 0) from portal.service_versions v
        where {rows.Sql("v")} and v.live order by v.service_id, v.from_day
        """, row => _versions.Add(row.Int(), new(row.Day(), row.Int(), row.Int())));

    private static void People(IRowReader from, Groups<Named> people, string query) =>
        from.Read(query, row => people.Add(row.Int(), new(row.Int(), new(row.Day(), row.Day()))));

    private void ReadProbes(IRowReader from)
    {
        var goals = new GoalLines(new(rules.Windows()), _probes);
        var commitments = new Groups<ProbeVersion>();
        from.Read($"""
            select c.goal_id, c.from_day, c.probes, c.every_unit, c.every_count, c.by_each
            from portal.probe_commitments c where {rows.Sql("c")} and c.live order by c.goal_id, c.from_day
            """, row => commitments.Add(row.Int(),
                new(new(row.Day(), row.Int()), new(row.Code<EveryUnit>(), row.Int()), row.Flag())));
        People(from, Owners, "select o.goal_id, o.person_id, o.from_day, o.to_day " +
            $"from portal.goal_owners o where {rows.Sql("o")} and o.live order by o.goal_id, o.position, o.id");
        from.Read($"""
            select g.id, g.learner_id, g.code, g.position, g.area, g.from_day, g.to_day, p.start_day, p.end_day
            from portal.goals g join portal.plans p on (p.agency_id, p.learner_id, p.id) = (g.agency_id, g.learner_id, g.plan_id)
            where {rows.Sql("g")} and g.live order by g.id
            """, row =>
        {
            var goal = new PlannedGoal(row.Int(), row.Int(), row.Text(), row.Int(), row.Text(), new(row.Day(), row.Day()), new(row.Day(), row.Day()));
            goals.Add(goal, commitments.Of(goal.Id), Owners.Of(goal.Id));
        });
    }
}
