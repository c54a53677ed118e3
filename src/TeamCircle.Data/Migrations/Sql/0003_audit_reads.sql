-- The whole-agency audit is answered by index-only scans (docs/performance.md): each index holds all that one of its queries reads,
-- and the rows behind an index are those that the query asks for. Each has learner_id: the policy reads it, and without it every row is fetched from the table.

create index ix_sessions_audit on portal.sessions (agency_id, on_day)
    include (service_id, learner_id, provider_id, credited, pays_on, place, format) where live and outcome = 'Given' and award_id is null;
create index ix_sessions_pays on portal.sessions (agency_id, pays_on)
    include (service_id, learner_id, provider_id, credited, on_day) where live and outcome = 'Given' and award_id is null and pays_on is not null;

create index ix_probes_audit on portal.probes (agency_id, on_day)
    include (goal_id, learner_id, provider_id, pays_on) where live and kind = 'Probe';
create index ix_probes_pays on portal.probes (agency_id, pays_on) where live and kind = 'Probe' and pays_on is not null;

-- The visit's id finds the goals that it names.
create index ix_visits_planned on portal.visits (agency_id, on_day)
    include (id, service_id, learner_id, provider_id, minutes, pays_on) where live and state = 'Planned' and award_id is null;
create index ix_visits_pays on portal.visits (agency_id, on_day)
    include (id, service_id, learner_id, provider_id, minutes, pays_on) where live and state = 'Planned' and award_id is null and pays_on is not null;
-- Few are asked for: those after an as-of day that has passed.
create index ix_visits_logged on portal.visits (agency_id, on_day) where live and state = 'Logged' and award_id is null;

-- The sums of plan years.
create index ix_sessions_service on portal.sessions (agency_id, service_id, on_day)
    include (learner_id, credited, pays_on) where live and outcome = 'Given' and award_id is null;
