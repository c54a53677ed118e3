using System.Globalization;

namespace TeamCircle.Data.Seed;

/// <summary>SQL for what is promised and who is there: calendar, people, learners, plans, services, goals.</summary>
internal static class LoadPlan
{
    // minutes and sessions of each window, kind of window, discipline
    private const string Services = """
        (values (0, 60, 2, 'Week', 1, 'Vision'), (1, 30, null, 'Week', 1, 'OccupationalTherapy'), (2, 120, 4, 'Month', 1, 'PhysicalTherapy'),
                (3, 90, 3, 'Week', 2, 'AssistiveTechnology'), (4, 1400, null, 'PlanYear', 1, 'SpecialEducation'))
            as k (k, quantity, sessions, unit, every, discipline)
        """;

    /// <summary>The tables whose rows grow with the number of learners.</summary>
    public static readonly string[] Tables =
        ["people", "person_roles", "learners", "relations", "plans", "services", "service_versions", "assignments", "goals", "probe_commitments", "goal_owners", "learner_periods"];

    public static IEnumerable<string> Statements(int agency, int learners)
    {
        var (id, last) = (LoadShape.FirstId, Date(LoadShape.LastDay));
        var groups = (learners + LoadShape.LearnersAProvider - 1) / LoadShape.LearnersAProvider;
        var i = $"generate_series(0, {learners - 1}) as i";
        var givers = groups * LoadShape.Services;
        yield return $"insert into portal.terms (agency_id, name, first_day, last_day, kind, live) values ({agency}, 'Year', {Date(LoadShape.FirstDay)}, {last}, 'Regular', true)";
        yield return $"insert into portal.policies (agency_id, from_day, short_window, surplus, tolerance_percent, session_share, live) values ({agency}, {Date(LoadShape.FirstDay)}, 'InFull', 'EachWindowAlone', 0, 100, true)";
        yield return $"insert into portal.periods (agency_id, name, start_day, end_day, live) values {string.Join(',', LoadShape.Periods.Select(p => $"({agency}, '{p.Name}', {Date(p.Start)}, {Date(p.End)}, true)"))}";
        yield return $"insert into portal.closures (agency_id, on_day, name, kind, live) values {string.Join(',', LoadShape.Closures.Select(d => $"({agency}, {Date(d)}, 'Closed', 'Published', true)"))}";
        yield return $"insert into portal.people (agency_id, id, email, name) select {agency}, {id} + p, case when p < {givers} then 'provider' || p else 'manager' || p - {givers} end || '@load.example', 'Person ' || p from generate_series(0, {givers + groups - 1}) as p";
        yield return $"insert into portal.person_roles (agency_id, person_id, role, from_day) select {agency}, {id} + p, case when p < {givers} then 'Provider' else 'CaseManager' end, date '2026-08-01' from generate_series(0, {givers + groups - 1}) as p";
        yield return $"insert into portal.people (agency_id, id, email, name) values ({agency}, {id} + {givers + groups}, '{LoadShape.Director}', 'Director'), ({agency}, {id} + {givers + groups + 1}, '{LoadShape.Family}', 'Family')";
        yield return $"insert into portal.person_roles (agency_id, person_id, role, from_day) values ({agency}, {id} + {givers + groups}, 'Director', date '2026-08-01'), ({agency}, {id} + {givers + groups + 1}, 'Family', date '2026-08-01')";
        yield return $"insert into portal.learners (agency_id, id, code, name, most_minutes_a_day) select {agency}, {id} + i, 'L' || i, 'Learner ' || i, 120 from {i}";
        yield return $"insert into portal.learner_periods (agency_id, learner_id, period_id) select {agency}, {id} + i, p.id from {i}, portal.periods p where p.agency_id = {agency}";
        yield return $"insert into portal.relations (agency_id, learner_id, person_id, kind, from_day, live) select {agency}, {id} + i, {id} + i / 8 * 5 + k, 'Team', date '2026-08-01', true from {i}, generate_series(0, 4) as k";
        yield return $"insert into portal.relations (agency_id, learner_id, person_id, kind, from_day, live) select {agency}, {id} + i, {id} + {givers} + i / 8, 'CaseManager', date '2026-08-01', true from {i}";
        yield return $"insert into portal.relations (agency_id, learner_id, person_id, kind, from_day, live) values ({agency}, {id}, {id} + {givers + groups + 1}, 'Family', date '2026-08-01', true)";
        yield return $"insert into portal.plans (agency_id, id, learner_id, start_day, end_day) select {agency}, {id} + i, {id} + i, date '2026-06-01' + i % 60, date '2027-05-31' + i % 60 from {i}";
        yield return $"""
            insert into portal.services (agency_id, id, learner_id, plan_id, code, position, discipline, kind, place, format, terms, co_treatment, every_unit, every_count, from_day, to_day, live)
            select {agency}, {id} + i * 5 + k, {id} + i, {id} + i, 'L' || i || '-' || k, k, discipline, case k when 4 then 'Consultation' else 'Direct' end,
                   'Home', 'Individual', 'Regular', 'None', unit, every, {Date(LoadShape.FirstDay)}, date '2027-05-31' + i % 60, true from {i}, {Services}
            """;
        yield return $"insert into portal.service_versions (agency_id, learner_id, service_id, code, from_day, quantity, sessions, live) select {agency}, {id} + i, {id} + i * 5 + k, 'L' || i || '-' || k, {Date(LoadShape.FirstDay)}, quantity, sessions, true from {i}, {Services}";
        // One in 97 has nobody assigned; one in 31 changes hands in the period.
        yield return $"""
            insert into portal.assignments (agency_id, learner_id, service_id, person_id, from_day, to_day, live)
            select {agency}, {id} + i, {id} + i * 5 + k, {id} + i / 8 * 5 + k, {Date(LoadShape.FirstDay)}, case when (i * 5 + k) % 31 = 0 then date '2027-01-31' else date '2027-05-31' + i % 60 end, true
            from {i}, generate_series(0, 4) as k where (i * 5 + k) % 97 <> 0
            union all
            select {agency}, {id} + i, {id} + i * 5 + k, {id} + (i + 8) % {learners} / 8 * 5 + k, date '2027-02-01', date '2027-05-31' + i % 60, true
            from {i}, generate_series(0, 4) as k where (i * 5 + k) % 97 <> 0 and (i * 5 + k) % 31 = 0
            """;
        foreach (var statement in Goals(agency, learners))
            yield return statement;
    }

    private static IEnumerable<string> Goals(int agency, int learners)
    {
        var (id, both) = (LoadShape.FirstId, $"generate_series(0, {learners - 1}) as i, generate_series(0, 1) as g");
        yield return $"""
            insert into portal.goals (agency_id, id, learner_id, plan_id, code, position, area, statement, measure, better, from_day, to_day, live)
            select {agency}, {id} + i * 2 + g, {id} + i, {id} + i, 'G' || i || '-' || g, g, 'vision', 'Looks.', 'PercentIndependent', 'Up', {Date(LoadShape.FirstDay)}, {Date(LoadShape.LastDay)}, true from {both}
            """;
        yield return $"""
            insert into portal.probe_commitments (agency_id, learner_id, goal_id, from_day, probes, every_unit, every_count, by_each, live)
            select {agency}, {id} + i, {id} + i * 2 + g, {Date(LoadShape.FirstDay)}, 1, 'Week', 1 + g, g = 0, true from {both}
            """;
        yield return $"""
            insert into portal.goal_owners (agency_id, learner_id, goal_id, person_id, position, from_day, to_day, live)
            select {agency}, {id} + i, {id} + i * 2 + g, {id} + i / 8 * 5 + g, 0, {Date(LoadShape.FirstDay)}, {Date(LoadShape.LastDay)}, true from {both}
            """;
    }

    private static string Date(LocalDate day) => $"date '{day.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)}'";
}
