-- Things that were promised, practised at home, the road, names, coming of age: who reads and writes what, and what can never be right.

-- ---------------------------------------------------------------- things
do $$
declare tab text;
begin
    foreach tab in array array['things', 'thing_events'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format(
            'create policy person on portal.%I to teamcircle_person
             using (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('grant insert, update on portal.%I to teamcircle_person', tab);
    end loop;
end $$;
alter table portal.things add constraint things_due check (due_on >= promised_on);
alter table portal.things add constraint things_ended check ((ended_on is null) = (ended_by is null) and (ended_on is null) = (ended_why is null));
alter table portal.thing_events add constraint thing_events_taken_back check (live = (taken_back_reason is null));

-- ---------------------------------------------------------------- practised at home
-- A family reads and takes back what it tapped itself, and taps where the agency has switched it on and the case manager lets this person; after quiet not at all.
drop policy person on portal.home_logs;
create policy person on portal.home_logs to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()) and current_setting('app.staff', true) = '1');
create policy person_family on portal.home_logs for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()) and by_family and recorded_by = portal.setting_int('app.person'));
create policy person_taps on portal.home_logs for insert to teamcircle_person with check (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and by_family and live and recorded_by = portal.setting_int('app.person')
    and exists (select from portal.agencies a where a.id = agency_id and a.home_taps)
    and exists (select from portal.relations r where r.agency_id = home_logs.agency_id and r.learner_id = home_logs.learner_id
                and r.person_id = portal.setting_int('app.person') and r.kind = 'Family' and r.taps_at_home and r.live)
    and not exists (select from portal.quiets q where q.agency_id = home_logs.agency_id and q.learner_id = home_logs.learner_id and q.ended_at is null));
create policy person_undoes on portal.home_logs for update to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()) and by_family and recorded_by = portal.setting_int('app.person'));
alter table portal.agencies add constraint agencies_home_taps check (not home_taps or home_taps_why is not null);
alter table portal.relations add constraint relations_taps check (kind = 'Family' or not taps_at_home);

-- ---------------------------------------------------------------- the road
drop policy person on portal.place_addresses;
create policy person on portal.place_addresses to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and current_setting('app.staff', true) = '1');
drop policy person on portal.road_starts;
create policy person on portal.road_starts to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));
grant insert, update on portal.road_starts to teamcircle_person;
alter table portal.travel_times add constraint travel_times_tenths check (tenths between 0 and 99999);

-- Where somebody's visits were, also those of learners whom they see no more: the code of the learner, never a name, a service or a note. Logged ones as they were
-- held or came to nothing on the spot; those that are still planned as planned. For the person, and for the agency.
create function portal.road_stops(who int, first_day date, last_day date)
    returns table (on_day date, starts time, ends time, place_id int, learner_code text, is_held boolean)
    language sql stable security definer set search_path = portal, pg_temp as $$
    select v.on_day, coalesce(s.start_time, v.start_time), coalesce(s.end_time, v.start_time + make_interval(mins => v.minutes)),
        portal.place_of(v.agency_id, v.learner_id, v.place, v.place_id), l.code, s.id is not null
    from portal.visits v
        join portal.learners l on l.agency_id = v.agency_id and l.id = v.learner_id
        left join portal.sessions s on s.agency_id = v.agency_id and s.visit_id = v.id and s.live and s.outcome in ('Given', 'Offered')
    where v.agency_id = portal.setting_int('app.agency') and v.provider_id = who and v.on_day between first_day and last_day
        and v.live and v.place <> 'Remote' and (s.id is not null or v.state = 'Planned')
        and (who = portal.setting_int('app.person') or current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job'))
    order by 1, 2, 3
$$;

-- ---------------------------------------------------------------- names
-- Read by whoever is, or was, the learner's case manager; by the agency on a stated ground.
create function portal.manages(learner int) returns boolean language sql stable security definer set search_path = portal, pg_temp
    return learner = any (portal.visible_learners()) and exists (
        select from portal.relations r where r.agency_id = portal.setting_int('app.agency') and r.learner_id = learner
            and r.person_id = portal.setting_int('app.person') and r.kind = 'CaseManager' and r.live);
do $$
declare tab text;
begin
    foreach tab in array array['learner_names', 'births'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format(
            'create policy person on portal.%I to teamcircle_person using (agency_id = portal.setting_int(''app.agency'') and portal.manages(learner_id))', tab);
    end loop;
end $$;
grant insert on portal.learner_names to teamcircle_person;
grant insert, update on portal.births to teamcircle_person;
drop policy person on portal.person_names;
create policy person on portal.person_names to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));
-- A former name stays as it was.
revoke update on portal.learner_names, portal.person_names from teamcircle_agency, teamcircle_job;

-- The legal name on a day, for a document that was sealed then: whoever may read the document reads the name on it.
create function portal.learner_name_on(learner int, day date) returns text language sql stable security definer set search_path = portal, pg_temp
    return (
        select coalesce(
            (select n.name from portal.learner_names n where n.agency_id = l.agency_id and n.learner_id = l.id and n.until_day > day order by n.until_day, n.id limit 1),
            l.legal_name, l.name)
        from portal.learners l
        where l.agency_id = portal.setting_int('app.agency') and l.id = learner
            and (learner = any (portal.visible_learners()) or current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job')));

-- The same for whoever signed something on a day.
create function portal.person_name_on(person int, day date) returns text language sql stable security definer set search_path = portal, pg_temp
    return (
        select coalesce(
            (select n.name from portal.person_names n where n.agency_id = p.agency_id and n.person_id = p.id and n.until_day > day order by n.until_day, n.id limit 1), p.name)
        from portal.people p where p.agency_id = portal.setting_int('app.agency') and p.id = person);

-- ---------------------------------------------------------------- coming of age
alter table portal.agencies add constraint agencies_majority check (majority_age between 18 and 21);
alter table portal.relations add constraint relations_adult check ((adult_basis is null) = (adult_paper is null) and (kind = 'Family' or adult_basis is null));
alter table portal.births add constraint births_told check ((told_on is null) = (told_words is null));
-- The days that decide whether a family's seat is open: only of one's own children, and only for the portal's own rule; no page shows them.
create function portal.own_births() returns table (learner_id int, born_on date) language sql stable security definer set search_path = portal, pg_temp as $$
    select b.learner_id, b.born_on from portal.births b
    where b.agency_id = portal.setting_int('app.agency') and exists (
        select from portal.relations r where r.agency_id = b.agency_id and r.learner_id = b.learner_id
            and r.person_id = portal.setting_int('app.person') and r.kind = 'Family' and r.live)
$$;

revoke execute on all functions in schema portal from public;
grant execute on function portal.road_stops(int, date, date), portal.manages(int), portal.learner_name_on(int, date), portal.person_name_on(int, date), portal.own_births()
    to teamcircle_person, teamcircle_agency, teamcircle_job;
