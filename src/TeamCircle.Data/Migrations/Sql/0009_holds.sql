-- Holds, and who has seen which cautions in full.

do $$
declare tab text;
begin
    foreach tab in array array['holds', 'cautions_seen'] loop
        call portal.raise_walls(tab);
        call portal.trail(tab);
        execute format('grant insert on portal.%I to teamcircle_person, teamcircle_agency, teamcircle_job', tab);
    end loop;
end $$;
-- What was set stays as it was said; a hold only ends.
grant update (ended_by, ended_at, ended_word, agreed_by) on portal.holds to teamcircle_person, teamcircle_agency;

alter table portal.holds add constraint holds_place check ((routine_id is null) <> (teach_part is null) and (step_key is null or routine_id is not null));
alter table portal.holds add constraint holds_told check ((told_as = 'Own') = (told_by is null) and (told_as = 'Own') = (told_on is null) and (told_time is null or told_on is not null));
alter table portal.holds add constraint holds_ended check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (ended_word is null) and (agreed_by is null or ended_at is not null) and ended_at >= set_at);
alter table portal.agencies add constraint agencies_hold_contact check (hold_contact_hours between 1 and 168);

-- ---------------------------------------------------------------- what devices send about a learner, and which have not heard
drop function portal.learner_of_device_body(uuid, int, int, int);
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

revoke execute on all functions in schema portal from public;
grant execute on function portal.learner_of_device_body(uuid, int, int, int, int), portal.team_devices(int, date) to teamcircle_person, teamcircle_agency, teamcircle_job;
