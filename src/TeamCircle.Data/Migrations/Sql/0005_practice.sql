-- Practices with their trials, devices, and what devices sent that needs a person.

do $$
declare tab text;
begin
    foreach tab in array array['practices', 'trials'] loop
        execute format('grant update (live) on portal.%I to teamcircle_person, teamcircle_agency', tab);
    end loop;
end $$;

-- ---------------------------------------------------------------- devices
-- A person reaches their own. The trail leaves out the time of the last contact, which is no change that a person made.
drop policy person on portal.devices;
create policy person on portal.devices to teamcircle_person
    using (agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));
grant insert on portal.devices to teamcircle_person;
grant update (last_contact, revoked_at, revoked_by) on portal.devices to teamcircle_person, teamcircle_agency;
create trigger trail after insert on portal.devices for each row execute function portal.note_change('id');
create trigger trail_revoked after update of revoked_at on portal.devices for each row execute function portal.note_change('id');
alter table portal.devices add constraint devices_revoked check ((revoked_at is null) = (revoked_by is null));

-- ---------------------------------------------------------------- set aside
-- Whoever sent it reaches it, also when the learner is theirs no more, and so do those who reach the learner.
drop policy person on portal.set_asides;
create policy person on portal.set_asides to teamcircle_person using (
    agency_id = portal.setting_int('app.agency')
    and (person_id = portal.setting_int('app.person') or learner_id = any (portal.visible_learners())));
grant update (closed_at, closed_by, closed_why, entered_by, version) on portal.set_asides to teamcircle_person, teamcircle_agency;
alter table portal.set_asides add constraint set_asides_closed check (
    (closed_at is null) = (closed_by is null) and (closed_at is null) = (closed_why is null and entered_by is null));

-- What a device sent is about some learner, whoever may reach them now: whoever looks after that learner must see it.
create function portal.learner_of_device_body(visit uuid, goal int, routine int, service int, learner int) returns int
    language sql stable security definer set search_path = portal, pg_temp
    return coalesce(
        (select v.learner_id from portal.visits v where v.agency_id = portal.setting_int('app.agency') and v.id = visit),
        (select g.learner_id from portal.goals g where g.agency_id = portal.setting_int('app.agency') and g.id = goal),
        (select r.learner_id from portal.routines r where r.agency_id = portal.setting_int('app.agency') and r.id = routine),
        (select s.learner_id from portal.services s where s.agency_id = portal.setting_int('app.agency') and s.id = service),
        (select l.id from portal.learners l where l.agency_id = portal.setting_int('app.agency') and l.id = learner));

-- Whose devices work with a learner, and when each was last in contact: for staff on that learner's team, who read only their own otherwise.
create function portal.team_devices(learner int, on_day date) returns table (person_id int, name text, last_contact timestamptz)
    language sql stable security definer set search_path = portal, pg_temp as $$
    select d.person_id, d.name, d.last_contact
    from portal.devices d
    where d.agency_id = portal.setting_int('app.agency') and d.revoked_at is null
        and (current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job')
             or (current_setting('app.staff', true) = '1' and learner = any (portal.visible_learners())))
        and exists (
            select from portal.relations r
            where r.agency_id = d.agency_id and r.person_id = d.person_id and r.learner_id = learner and r.live
                and r.kind not in ('Family', 'Reviewer') and r.from_day <= on_day and coalesce(r.to_day, 'infinity') >= on_day)
    order by d.last_contact nulls first, d.made_at
$$;

alter table portal.practices add constraint practices_order check (ended_at >= started_at);
alter table portal.practices add constraint practices_record check (jsonb_typeof(record) = 'object');
-- A second observer's practice is known by a code, and by the practice itself once that one has arrived.
alter table portal.practices add constraint practices_second check (
    (observes is null or observes_code is not null) and observes is distinct from id and length(observes_code) = 6);
alter table portal.practices add constraint practices_under_holds check ((under_holds = '{}') = (under_holds_word is null));
grant update (observes) on portal.practices to teamcircle_person, teamcircle_agency, teamcircle_job;
alter table portal.sessions add constraint sessions_filled check (jsonb_typeof(filled) = 'array');

revoke execute on all functions in schema portal from public;
grant execute on function portal.learner_of_device_body(uuid, int, int, int, int), portal.team_devices(int, date) to teamcircle_person, teamcircle_agency, teamcircle_job;
