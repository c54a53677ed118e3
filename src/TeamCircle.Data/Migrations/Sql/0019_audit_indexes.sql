-- Make-ups that were logged for days after an as-of day. There are few, mostly none, but the planner takes state and day for independent of each
-- other, expects a fifth of all visits, and read the whole table for them.
create index ix_visits_logged_pays on portal.visits (agency_id, on_day)
    include (id, service_id, learner_id, provider_id, minutes, planned_minutes, pays_on)
    where live and state = 'Logged' and award_id is null and pays_on is not null;
