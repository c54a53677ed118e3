-- Make-ups that were logged for days after an as-of day. There are few, mostly none, but the planner takes state and day for independent of each
-- other, expects a fifth of all visits, and read the whole table for them.
create index ix_visits_logged_pays on portal.visits (agency_id, on_day)
    include (id, service_id, learner_id, provider_id, minutes, planned_minutes, pays_on)
    where live and state = 'Logged' and award_id is null and pays_on is not null;
-- Planned visits of awards by day, beside those of services (ix_visits_planned): what stands on a closed day is looked for in both.
create index ix_visits_award_day on portal.visits (agency_id, on_day) where live and state = 'Planned' and award_id is not null;
