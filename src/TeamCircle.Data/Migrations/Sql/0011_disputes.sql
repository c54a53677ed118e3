-- Holds on records: what a dispute keeps as it is, whoever writes and however.

alter table portal.record_holds add constraint record_holds_order check (to_day >= from_day);
alter table portal.record_holds add constraint record_holds_ended check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (ended_word is null));
-- What was set stays as it was said; it only ends.
revoke update on portal.record_holds from teamcircle_agency, teamcircle_job;
grant insert on portal.record_holds to teamcircle_person;
grant update (ended_by, ended_at, ended_word) on portal.record_holds to teamcircle_person, teamcircle_agency;

-- A hold waits for the changes that are under way, and those that come wait for it and then meet it: one lock of the agency, shared by all who
-- change a recorded fact, for whoever sets a hold alone. Its moments are the database's own, as those of what is recorded.
create function portal.begin_record_hold() returns trigger language plpgsql set search_path = portal, pg_temp as $$
begin
    perform pg_advisory_xact_lock(7202613, new.agency_id);
    new.set_at := clock_timestamp();
    return new;
end $$;
create trigger begin_record_hold before insert on portal.record_holds for each row execute function portal.begin_record_hold();
create function portal.end_record_hold() returns trigger language plpgsql set search_path = portal, pg_temp as $$
begin
    perform pg_advisory_xact_lock(7202613, new.agency_id);
    new.ended_at := clock_timestamp();
    return new;
end $$;
create trigger end_record_hold before update on portal.record_holds for each row when (old.ended_at is null) execute function portal.end_record_hold();

-- Whoever may not read the hold meets it all the same.
create function portal.keep_held() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
begin
    perform pg_advisory_xact_lock_shared(7202613, old.agency_id);
    if exists (
        select from portal.record_holds h
        where h.agency_id = old.agency_id and h.learner_id in (old.learner_id, new.learner_id) and h.ended_at is null
            and (old.on_day between h.from_day and h.to_day or new.on_day between h.from_day and h.to_day)) then
        raise exception 'the records of this day are under a hold' using errcode = 'TC011';
    end if;
    return null;
end $$;
create trigger keep_held after update on portal.sessions for each row execute function portal.keep_held();
create trigger keep_held after update on portal.probes for each row execute function portal.keep_held();
create trigger keep_held after update on portal.decisions for each row execute function portal.keep_held();
-- A second observer's practice may find the one that it scored.
create trigger keep_held after update on portal.practices for each row
    when ((old.learner_id, old.on_day, old.live, old.provider_id, old.record) is distinct from (new.learner_id, new.on_day, new.live, new.provider_id, new.record))
    execute function portal.keep_held();
-- A visit that nobody has entered yet is entered; nothing else about it changes.
create trigger keep_held after update on portal.visits for each row
    when (not (old.state <> 'Logged' and new.state = 'Logged' and old.live and new.live)
          and (old.learner_id, old.kind, old.service_id, old.provider_id, old.on_day, old.start_time, old.minutes, old.zone, old.state, old.live,
               old.takes_time, old.pays_on, old.place, old.place_id, old.format, old.partner_id, old.called_off, old.planned_start, old.planned_minutes, old.award_id)
              is distinct from
              (new.learner_id, new.kind, new.service_id, new.provider_id, new.on_day, new.start_time, new.minutes, new.zone, new.state, new.live,
               new.takes_time, new.pays_on, new.place, new.place_id, new.format, new.partner_id, new.called_off, new.planned_start, new.planned_minutes, new.award_id))
    execute function portal.keep_held();

-- A first entry is none where there was one before, also one that was taken back.
create function portal.keep_held_sessions() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
begin
    if exists (
        select from portal.record_holds h join new_rows n on n.agency_id = h.agency_id and n.learner_id = h.learner_id and n.on_day between h.from_day and h.to_day
        where h.ended_at is null and (n.replaces is not null or exists (
            select from portal.sessions s where s.agency_id = n.agency_id and s.visit_id = n.visit_id and s.id <> n.id))) then
        raise exception 'the records of this day are under a hold' using errcode = 'TC011';
    end if;
    return null;
end $$;
create trigger keep_held_new after insert on portal.sessions referencing new table as new_rows
    for each statement execute function portal.keep_held_sessions();
create function portal.keep_held_probes() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
begin
    if exists (
        select from portal.record_holds h join new_rows n on n.agency_id = h.agency_id and n.learner_id = h.learner_id and n.on_day between h.from_day and h.to_day
        where h.ended_at is null and n.replaces is not null) then
        raise exception 'the records of this day are under a hold' using errcode = 'TC011';
    end if;
    return null;
end $$;
create trigger keep_held_new after insert on portal.probes referencing new table as new_rows
    for each statement execute function portal.keep_held_probes();

-- ---------------------------------------------------------------- the road before and after a visit
-- For each visit of a learner between two days: the minutes between it and the same provider's visit before and after, and those that the
-- road takes; whose those visits are is not told. Null where there is none, or a place or the time between two is not known.
create function portal.travel_around(learner int, first_day date, last_day date)
    returns table (visit_id uuid, gap_before int, road_before int, gap_after int, road_after int)
    language sql stable security definer set search_path = portal, pg_temp as $$
    select v.id,
        (extract(epoch from lower(v.during) - b.ended) / 60)::int, portal.travel_minutes(v.agency_id, b.there, p.here),
        (extract(epoch from n.starts - upper(v.during)) / 60)::int, portal.travel_minutes(v.agency_id, p.here, n.there)
    from portal.visits v
        cross join lateral (select portal.place_of(v.agency_id, v.learner_id, v.place, v.place_id) as here) p
        left join lateral (
            select upper(o.during) as ended, portal.place_of(o.agency_id, o.learner_id, o.place, o.place_id) as there from portal.visits o
            where o.agency_id = v.agency_id and o.provider_id = v.provider_id and o.on_day = v.on_day and o.id <> v.id
                and o.live and o.takes_time and o.state <> 'CalledOff' and upper(o.during) <= lower(v.during)
            order by upper(o.during) desc limit 1) b on true
        left join lateral (
            select lower(o.during) as starts, portal.place_of(o.agency_id, o.learner_id, o.place, o.place_id) as there from portal.visits o
            where o.agency_id = v.agency_id and o.provider_id = v.provider_id and o.on_day = v.on_day and o.id <> v.id
                and o.live and o.takes_time and o.state <> 'CalledOff' and lower(o.during) >= upper(v.during)
            order by lower(o.during) limit 1) n on true
    where v.agency_id = portal.setting_int('app.agency') and v.learner_id = learner and v.on_day between first_day and last_day
        and v.live and v.takes_time and v.state <> 'CalledOff'
        and (current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job')
             or (current_setting('app.staff', true) = '1' and learner = any (portal.visible_learners())))
$$;

-- ---------------------------------------------------------------- samples of files
-- Drawn and answered for the agency; what was drawn stays as it was.
do $$
declare tab text;
begin
    foreach tab in array array['samples', 'sample_files', 'sample_answers'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format('create policy person on portal.%I to teamcircle_person using (false)', tab);
    end loop;
    revoke update on portal.samples, portal.sample_files from teamcircle_agency, teamcircle_job;
end $$;
alter table portal.samples add constraint samples_population check (population >= 1);

revoke execute on all functions in schema portal from public;
grant execute on function portal.travel_around(int, date, date) to teamcircle_person, teamcircle_agency, teamcircle_job;
