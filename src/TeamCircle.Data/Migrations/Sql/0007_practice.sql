-- Practices with their trials, devices, and what devices sent that needs a person.

do $$
declare tab text;
begin
    foreach tab in array array['practices', 'trials'] loop
        call portal.raise_walls(tab);
        call portal.trail(tab);
        execute format('grant insert on portal.%I to teamcircle_person, teamcircle_agency, teamcircle_job', tab);
        execute format('grant update (live) on portal.%I to teamcircle_person, teamcircle_agency', tab);
    end loop;
    foreach tab in array array['devices', 'set_asides'] loop
        call portal.raise_walls(tab);
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
call portal.trail('set_asides');
grant insert on portal.set_asides to teamcircle_person, teamcircle_agency, teamcircle_job;
grant update (closed_at, closed_by, closed_why, entered_by, version) on portal.set_asides to teamcircle_person, teamcircle_agency;
alter table portal.set_asides add constraint set_asides_closed check (
    (closed_at is null) = (closed_by is null) and (closed_at is null) = (closed_why is null and entered_by is null));

-- What a device sent is about some learner, whoever may reach them now: whoever looks after that learner must see it.
create function portal.learner_of_device_body(visit uuid, goal int, routine int, service int) returns int
    language sql stable security definer set search_path = portal, pg_temp
    return coalesce(
        (select v.learner_id from portal.visits v where v.agency_id = portal.setting_int('app.agency') and v.id = visit),
        (select g.learner_id from portal.goals g where g.agency_id = portal.setting_int('app.agency') and g.id = goal),
        (select r.learner_id from portal.routines r where r.agency_id = portal.setting_int('app.agency') and r.id = routine),
        (select s.learner_id from portal.services s where s.agency_id = portal.setting_int('app.agency') and s.id = service));

alter table portal.practices add constraint practices_order check (ended_at >= started_at);
alter table portal.practices add constraint practices_record check (jsonb_typeof(record) = 'object');

revoke execute on all functions in schema portal from public;
grant execute on function portal.learner_of_device_body(uuid, int, int, int) to teamcircle_person, teamcircle_agency, teamcircle_job;
