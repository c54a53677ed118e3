-- Visits that recur, time away, places and travel, hours, and what is practised: who writes them, and what the database refuses.

alter table portal.agencies add constraint agencies_away check (away_meeting_days between 1 and 200);
alter table portal.visits add constraint visits_kind check ((kind = 'Service') = (service_id is not null));
alter table portal.visits add constraint visits_series check ((series_id is null) = (original_start is null));
alter table portal.series add constraint series_kind check ((kind = 'Service') = (service_id is not null));
alter table portal.series add constraint series_length check (minutes between 1 and 720);
alter table portal.aways add constraint aways_order check (until_day >= from_day);
alter table portal.travel_times add constraint travel_times_range check (minutes between 0 and 600 and from_place_id <> to_place_id);
alter table portal.working_hours add constraint working_hours_order check (to_time > from_time and to_day >= from_day);
alter table portal.open_hours add constraint open_hours_order check (to_time > from_time and to_day >= from_day);
alter table portal.home_practice add constraint home_practice_when check ((weekday is null) <> (on_day is null));
-- One time away at a time: two that overlap would both hold the same visits.
alter table portal.aways add constraint aways_overlap
    exclude using gist (agency_id with =, learner_id with =, daterange(from_day, until_day, '[]') with &&) where (live);

-- ---------------------------------------------------------------- from place to place
-- Null where a place or the time between two is not known.
create function portal.place_of(agency int, learner int, place_kind text, own_place int) returns int
    language sql stable security definer set search_path = portal, pg_temp
    return coalesce(own_place, (select l.place_id from portal.learner_places l
                                where l.agency_id = agency and l.learner_id = learner and l.kind = place_kind and l.live));
create function portal.travel_minutes(agency int, from_place int, to_place int) returns int
    language sql stable security definer set search_path = portal, pg_temp
    return case when from_place = to_place then 0 else coalesce(
        (select t.minutes from portal.travel_times t
         where t.agency_id = agency and t.from_place_id = from_place and t.to_place_id = to_place and t.live),
        (select t.minutes from portal.travel_times t
         where t.agency_id = agency and t.from_place_id = to_place and t.to_place_id = from_place and t.live)) end;

-- A person gets from one visit to the next. An exclusion constraint can't say it: the gap depends on both places. What an import
-- brings and what was logged has happened and is never refused; the audit lists it to check. The lock makes two who plan the
-- same person's day wait for each other; it is the one that the portal takes before it writes (Calendar/DayLock.cs).
create function portal.guard_travel() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
declare here int := portal.place_of(new.agency_id, new.learner_id, new.place, new.place_id);
begin
    if here is null then return null; end if;
    perform pg_advisory_xact_lock(hashtextextended(
        format('%s/%s/person %s', new.agency_id, new.on_day - date '0001-01-01', new.provider_id), 0));
    if exists (
        select from portal.visits v cross join lateral (select portal.place_of(v.agency_id, v.learner_id, v.place, v.place_id) as there) p
        where v.agency_id = new.agency_id and v.provider_id = new.provider_id and v.on_day = new.on_day and v.id <> new.id
            and v.live and v.takes_time and v.state <> 'CalledOff' and p.there <> here
            and case when upper(v.during) <= lower(new.during)
                     then lower(new.during) - upper(v.during) < make_interval(mins => portal.travel_minutes(new.agency_id, p.there, here))
                     when lower(v.during) >= upper(new.during)
                     then lower(v.during) - upper(new.during) < make_interval(mins => portal.travel_minutes(new.agency_id, here, p.there))
                     else false end) then
        raise exception 'not enough time to travel' using errcode = 'TC003';
    end if;
    return null;
end $$;
create trigger guard_travel_new after insert on portal.visits for each row
    when (new.live and new.takes_time and new.state = 'Planned' and coalesce(current_setting('app.import', true), '') = '')
    execute function portal.guard_travel();
create trigger guard_travel_moved after update on portal.visits for each row
    when (new.live and new.takes_time and new.state = 'Planned' and old.state <> 'Logged'
          and (old.during, old.provider_id, old.place, old.place_id, old.state, old.live)
              is distinct from (new.during, new.provider_id, new.place, new.place_id, new.state, new.live)
          and coalesce(current_setting('app.import', true), '') = '')
    execute function portal.guard_travel();

-- ---------------------------------------------------------------- when a colleague is taken
-- Start, end and a place's code, for people on the teams of the learners in reach; never whose visit it is.
create function portal.provider_busy(provider int, starting timestamptz, ending timestamptz)
    returns table (starts timestamptz, ends timestamptz, place_code text)
    language sql stable security definer set search_path = portal, pg_temp as $$
    select lower(v.during), upper(v.during), p.code
    from portal.visits v
        left join portal.places p on p.agency_id = v.agency_id and p.id = portal.place_of(v.agency_id, v.learner_id, v.place, v.place_id)
    where v.agency_id = portal.setting_int('app.agency') and v.provider_id = provider
        and v.on_day between (starting at time zone 'UTC')::date - 1 and (ending at time zone 'UTC')::date + 1
        and lower(v.during) < ending and upper(v.during) > starting and v.live and v.takes_time and v.state <> 'CalledOff'
        and (current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job')
             or (current_setting('app.staff', true) = '1' and exists (
                 select from portal.relations r
                 where r.agency_id = v.agency_id and r.person_id = provider and r.live
                     and coalesce(r.to_day, 'infinity') >= (starting at time zone 'UTC')::date - 1
                     and r.kind not in ('Family', 'Reviewer') and r.learner_id = any (portal.visible_learners()))))
    order by 1, 2
$$;

-- ---------------------------------------------------------------- a visit that went to somebody else
-- Who had it is told so by their own feed, whatever way it went (a page, taking back, an import).
create function portal.note_hand_over() returns trigger language plpgsql set search_path = portal, pg_temp as $$
begin
    insert into portal.handed_over as h (agency_id, learner_id, visit_id, person_id, on_day, start_time, minutes, zone, place, place_id, sequence, at)
    values (old.agency_id, old.learner_id, old.id, old.provider_id, old.on_day, old.start_time, old.minutes, old.zone, old.place, old.place_id,
            greatest(new.sequence, old.sequence + 1), now())
    on conflict (agency_id, visit_id, person_id) do update
        set (on_day, start_time, minutes, zone, place, place_id, sequence, at)
            = (excluded.on_day, excluded.start_time, excluded.minutes, excluded.zone, excluded.place, excluded.place_id, excluded.sequence, excluded.at);
    return null;
end $$;
create trigger note_hand_over after update of provider_id on portal.visits for each row
    when (old.live and old.provider_id <> new.provider_id) execute function portal.note_hand_over();

revoke execute on all functions in schema portal from public;
grant execute on function portal.provider_busy(int, timestamptz, timestamptz) to teamcircle_person, teamcircle_agency, teamcircle_job;
