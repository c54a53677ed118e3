-- Second observers, practices that took place under a hold, holds on services.

-- A second observer's practice is known by a code, and by the practice itself once that one has arrived.
alter table portal.practices add constraint practices_second check (
    (observes is null or observes_code is not null) and observes is distinct from id and length(observes_code) = 6);
alter table portal.practices add constraint practices_under_holds check ((under_holds = '{}') = (under_holds_word is null));
grant update (observes) on portal.practices to teamcircle_person, teamcircle_agency, teamcircle_job;

alter table portal.holds drop constraint holds_place;
alter table portal.holds add constraint holds_place check (num_nonnulls(routine_id, teach_part, service_id) = 1 and (step_key is null or routine_id is not null));

alter table portal.sessions add constraint sessions_filled check (jsonb_typeof(filled) = 'array');
