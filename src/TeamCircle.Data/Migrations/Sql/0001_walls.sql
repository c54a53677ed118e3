-- What EF Core can't say: who may reach which row, what the database refuses, and the trail of changes.
-- A later migration that adds a table calls  call portal.raise_walls('its_name')  once; a test lists tables without walls.

-- ---------------------------------------------------------------- settings of a transaction
create function portal.setting_int(name text) returns int language sql stable parallel safe
    return nullif(current_setting(name, true), '')::int;
create function portal.visible_learners() returns int[] language sql stable parallel safe
    return coalesce(nullif(current_setting('app.learners', true), ''), '{}')::int[];

-- ---------------------------------------------------------------- version tokens
create function portal.raise_version() returns trigger language plpgsql as $$
begin
    new.version := old.version + 1;
    return new;
end $$;

-- ---------------------------------------------------------------- the trail of changes
-- A picture stands in the trail as its hash: the bytes would stay there for ever, also of a picture that the family asked to remove.
create function portal.hash_picture(facts jsonb) returns jsonb language sql immutable set search_path = portal, pg_temp
    return case when facts ? 'jpeg'
        then jsonb_set(facts, '{jpeg}', to_jsonb('sha256:' || encode(sha256(decode(substr(facts ->> 'jpeg', 3), 'hex')), 'hex')))
        else facts end;

-- Row by row, in the same transaction, whoever writes and however.
create function portal.note_change() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    was jsonb := case when tg_op = 'INSERT' then null else portal.hash_picture(to_jsonb(old)) end;
    is_now jsonb := case when tg_op = 'DELETE' then null else portal.hash_picture(to_jsonb(new)) end;
    facts jsonb := coalesce(is_now, was);
    person int := portal.setting_int('app.person');
    ground text := nullif(current_setting('app.ground', true), '');
begin
    if person is null or ground is null then
        raise exception 'a change needs a person and a ground' using errcode = 'TC002';
    end if;
    insert into portal.changes (agency_id, at, tx, person_id, ground, operation_id, learner_id, table_name, row_key, act, before, after)
    values (
        coalesce(facts ->> 'agency_id', facts ->> 'id')::int, now(), pg_current_xact_id()::text::bigint, person, ground,
        nullif(current_setting('app.operation', true), '')::uuid,
        case when tg_table_name = 'learners' then (facts ->> 'id')::int else (facts ->> 'learner_id')::int end,
        tg_table_name,
        (select string_agg(facts ->> k, '/' order by n) from unnest(tg_argv) with ordinality as key(k, n)),
        lower(tg_op), was, is_now);
    return null;
end $$;

-- An import leaves one change row, with its files' hashes, for all rows that it adds. Rows that it changes leave their own as
-- always: without them nothing would tell what stood there before.
create procedure portal.trail(tab text) language plpgsql as $$
declare keys text;
begin
    select string_agg(quote_literal(a.attname), ', ' order by a.attnum) into keys
    from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any (i.indkey)
    where i.indrelid = ('portal.' || quote_ident(tab))::regclass and i.indisprimary and a.attname <> 'agency_id';
    execute format(
        'create trigger trail after update or delete on portal.%I for each row execute function portal.note_change(%s)', tab, keys);
    execute format(
        'create trigger trail_new after insert on portal.%I for each row
         when (coalesce(current_setting(''app.import'', true), '''') = '''') execute function portal.note_change(%s)', tab, keys);
end $$;

-- ---------------------------------------------------------------- closed periods
-- Every write of a dated fact locks the learner's counts of both its days (its own and the one it pays) for share; closing locks
-- all counts of the learner for update. A day between two periods belongs to the one before it here: it may lie in a week that closed
-- there. A write into the days that bear on a closed count passes only under a restatement that names it, but for a make-up that lies
-- after those days: it pays what was brought forward from there, and the sealed figures stay.
create procedure portal.guard_periods(tab text) language plpgsql as $$
declare
    pays text := case when exists (select 1 from pg_attribute where attrelid = ('portal.' || quote_ident(tab))::regclass
                                   and attname = 'pays_on') then 'r.pays_on' else 'null::date' end;
    body text := $body$
        create function portal.guard_%1$s_%2$s() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $f$
        declare agencies int[]; learners int[]; periods int[];
        begin
            select array_agg(t.agency_id), array_agg(t.learner_id), array_agg(t.period_id) into agencies, learners, periods
            from (select distinct r.agency_id, r.learner_id, p.id as period_id
                  from (%3$s) r join (
                      select agency_id, id, start_day, lead(start_day, 1, date 'infinity') over (partition by agency_id order by start_day) as next_start
                      from portal.periods where live) p on p.agency_id = r.agency_id
                      and ((p.start_day <= r.on_day and r.on_day < p.next_start) or (p.start_day <= %4$s and %4$s < p.next_start))
                  order by 1, 2, 3) t;
            if agencies is null then return null; end if;
            insert into portal.learner_periods (agency_id, learner_id, period_id)
                select * from unnest(agencies, learners, periods) on conflict do nothing;
            perform from portal.learner_periods lp join unnest(agencies, learners, periods) as t(a, l, p)
                on (t.a, t.l, t.p) = (lp.agency_id, lp.learner_id, lp.period_id)
                order by lp.agency_id, lp.learner_id, lp.period_id for share of lp;
            if exists (
                select from (%3$s) r
                join portal.learner_periods lp on lp.agency_id = r.agency_id and lp.learner_id = r.learner_id and lp.closed_at is not null
                join portal.periods p on p.agency_id = lp.agency_id and p.id = lp.period_id and p.live
                where r.on_day <= coalesce(lp.last_day, p.end_day)
                    and (r.on_day >= coalesce(lp.first_day, p.start_day)
                         or %4$s between coalesce(lp.first_day, p.start_day) and coalesce(lp.last_day, p.end_day))
                    and coalesce(current_setting('app.restatement', true), '') <> lp.learner_id || '/' || lp.period_id) then
                raise exception 'the count of this period is closed' using errcode = 'TC001';
            end if;
            return null;
        end $f$ $body$;
begin
    execute format(body, tab, 'new', 'select * from new_rows', pays);
    execute format(body, tab, 'both', 'select * from new_rows union all select * from old_rows', pays);
    execute format('create trigger guard_new after insert on portal.%1$I referencing new table as new_rows
                    for each statement execute function portal.guard_%1$s_new()', tab);
    execute format('create trigger guard_both after update on portal.%1$I referencing old table as old_rows new table as new_rows
                    for each statement execute function portal.guard_%1$s_both()', tab);
end $$;

-- ---------------------------------------------------------------- row-level security
create procedure portal.raise_walls(tab text) language plpgsql as $$
declare
    full_name text := 'portal.' || quote_ident(tab);
    has_learner boolean := exists (select 1 from pg_attribute where attrelid = full_name::regclass and attname = 'learner_id');
    has_version boolean := exists (select 1 from pg_attribute where attrelid = full_name::regclass and attname = 'version');
    in_agency text := case tab when 'agencies' then 'id' else 'agency_id' end || ' = portal.setting_int(''app.agency'')';
    for_person text := in_agency || case
        when tab = 'learners' then ' and id = any (portal.visible_learners())'
        when has_learner then ' and learner_id = any (portal.visible_learners())'
        else '' end;
begin
    execute format('alter table %s enable row level security', full_name);
    execute format('alter table %s force row level security', full_name);
    execute format('create policy owner on %s to teamcircle_owner using (true) with check (true)', full_name);
    execute format('create policy agency on %s to teamcircle_agency, teamcircle_job using (%s) with check (%s)', full_name, in_agency, in_agency);
    execute format('create policy person on %s to teamcircle_person using (%s) with check (%s)', full_name, for_person, for_person);
    execute format('grant select on %s to teamcircle_person, teamcircle_agency, teamcircle_job', full_name);
    if has_version then
        execute format('create trigger a_version before update on %s for each row execute function portal.raise_version()', full_name);
    end if;
end $$;

do $$
declare tab text;
begin
    for tab in select tablename from pg_tables where schemaname = 'portal' and tablename <> 'migrations' loop
        call portal.raise_walls(tab);
        continue when tab in ('accesses', 'operations', 'changes', 'blocks', 'learner_periods', 'devices', 'outbox', 'job_runs', 'sealed_lines');
        call portal.trail(tab);
        -- Of what is never rewritten only the columns that end it may change (the files after this one).
        if tab in ('routine_versions', 'routine_reviews', 'routine_pictures', 'holds', 'cautions_seen', 'practices', 'trials', 'set_asides',
                   'reports', 'report_goals', 'report_parts', 'report_signatures', 'quiets', 'statements', 'reopenings') then
            execute format('grant insert on portal.%I to teamcircle_person, teamcircle_agency, teamcircle_job', tab);
        else
            execute format('grant insert, update on portal.%I to teamcircle_agency, teamcircle_job', tab);
        end if;
    end loop;
    -- A count's row appears by itself with its first fact; only what people do to it later is a change.
    create trigger trail after update on portal.learner_periods for each row execute function portal.note_change('learner_id', 'period_id');
    grant update on portal.learner_periods to teamcircle_agency, teamcircle_person;
    foreach tab in array array['visits', 'sessions', 'probes', 'decisions'] loop
        call portal.guard_periods(tab);
    end loop;
    foreach tab in array array['learners', 'relations', 'plans', 'services', 'service_versions', 'assignments', 'goals', 'probe_commitments',
                               'goal_owners', 'objectives', 'teach_parts', 'visits', 'visit_goals', 'sessions', 'probes', 'decisions',
                               'series', 'aways', 'learner_places', 'open_hours', 'routines', 'visit_routines', 'series_routines', 'home_practice',
                               'handed_over', 'home_logs', 'goal_changes'] loop
        execute format('grant insert, update on portal.%I to teamcircle_person', tab);
    end loop;
end $$;

-- People are seen by staff of the agency, by themselves, and by a family as far as they share a learner.
drop policy person on portal.people;
create policy person on portal.people to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and (
        current_setting('app.staff', true) = '1' or id = portal.setting_int('app.person')
        or exists (select 1 from portal.relations r where r.agency_id = people.agency_id and r.person_id = people.id and r.live
                   and r.learner_id = any (portal.visible_learners()))));
-- One reads one's own relations too, but writes only those of the learners in reach: nobody can add oneself to another's team.
drop policy person on portal.relations;
create policy person on portal.relations for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency')
    and (learner_id = any (portal.visible_learners()) or person_id = portal.setting_int('app.person')));
create policy person_adds on portal.relations for insert to teamcircle_person with check (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));
create policy person_changes on portal.relations for update to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));
drop policy person on portal.operations;
create policy person on portal.operations to teamcircle_person
    using (agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));
drop policy person on portal.accesses;
create policy person on portal.accesses for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency')
    and (person_id = portal.setting_int('app.person') or learner_ids && portal.visible_learners()));
create policy person_adds on portal.accesses for insert to teamcircle_person
    with check (agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));

grant insert on portal.accesses to teamcircle_person, teamcircle_agency, teamcircle_job;
grant insert, update on portal.operations to teamcircle_person, teamcircle_agency, teamcircle_job;
grant insert on portal.blocks to teamcircle_job;
grant delete on portal.visit_goals, portal.visit_routines, portal.series_routines to teamcircle_person, teamcircle_agency;
grant delete on portal.person_disciplines to teamcircle_agency;
grant usage on schema portal to teamcircle_person, teamcircle_agency, teamcircle_job;
grant usage on sequence portal.visit_numbers to teamcircle_person, teamcircle_agency, teamcircle_job;
revoke execute on all functions in schema portal from public;
grant execute on function portal.setting_int(text), portal.visible_learners() to teamcircle_person, teamcircle_agency, teamcircle_job;

-- ---------------------------------------------------------------- what can never be right
create unique index ix_people_email on portal.people (agency_id, lower(email));
alter table portal.periods add constraint periods_overlap
    exclude using gist (agency_id with =, daterange(start_day, end_day, '[]') with &&) where (live);
alter table portal.periods add constraint periods_order check (end_day >= start_day);
alter table portal.terms add constraint terms_order check (last_day >= first_day);
alter table portal.plans add constraint plans_order check (end_day >= start_day);
alter table portal.goals add constraint goals_criterion check (
    criterion_fewest >= 1 and criterion_people >= 1 and criterion_places >= 1 and criterion_days between 1 and criterion_of);
alter table portal.goals add constraint goals_upkeep check (first_upkeep >= 1 and second_upkeep >= 1 and third_upkeep >= 1);
alter table portal.goals add constraint goals_in_a_row check (in_a_row in (3, 4));
alter table portal.services add constraint services_order check (to_day >= from_day);
alter table portal.services add constraint services_every check (every_count >= 1);
alter table portal.service_versions add constraint service_versions_amount check (quantity >= 0 and coalesce(sessions, 1) >= 1);
alter table portal.assignments add constraint assignments_order check (to_day >= from_day);
alter table portal.people add constraint people_day check (most_minutes_a_day between 1 and 1440);
alter table portal.learners add constraint learners_day check (most_minutes_a_day between 0 and 1440);
alter table portal.policies add constraint policies_range check (tolerance_percent between 0 and 100 and session_share between 1 and 100);
alter table portal.visits add constraint visits_length check (minutes between 1 and 720);
alter table portal.sessions add constraint sessions_order check (end_time > start_time);
alter table portal.sessions add constraint sessions_minutes check (not_counted >= 0 and credited between 0 and 720);
alter table portal.decisions add constraint decisions_about check ((service_id is null) <> (goal_id is null));
alter table portal.decisions add constraint decisions_people check (cardinality(decided_by) >= 1);
-- A person is in one place at a time; a learner's own time goes to one visit at a time, but for co-treatment.
alter table portal.visits add constraint visits_provider_twice
    exclude using gist (agency_id with =, provider_id with =, during with &&, group_no with <>)
    where (live and takes_time and state <> 'CalledOff');
alter table portal.visits add constraint visits_learner_twice
    exclude using gist (agency_id with =, learner_id with =, during with &&, together_no with <>)
    where (live and takes_time and learners_time and state <> 'CalledOff');

-- ---------------------------------------------------------------- doors that ask no agency yet
create function portal.agency_id_of(agency_code text) returns int language sql stable security definer set search_path = portal, pg_temp
    return (select id from portal.agencies where lower(code) = lower(agency_code));
create function portal.agency_ids() returns setof int language sql stable security definer set search_path = portal, pg_temp
    as $$ select id from portal.agencies order by id $$;
-- A new agency and its terminal person come together: without a person nothing could be written in it.
create function portal.make_agency(agency_code text, agency_name text, zone text) returns int
    language plpgsql security definer set search_path = portal, pg_temp as $$
declare new_id int; terminal int;
begin
    new_id := nextval(pg_get_serial_sequence('portal.agencies', 'id'));
    terminal := nextval(pg_get_serial_sequence('portal.people', 'id'));
    perform set_config('app.person', terminal::text, true), set_config('app.ground', 'a new agency', true);
    insert into portal.agencies (id, code, name, time_zone, weekdays, week_start)
        values (new_id, agency_code, agency_name, zone, 31, 'Monday');
    insert into portal.people (agency_id, id, email, name) values (new_id, terminal, 'terminal', 'Terminal');
    insert into portal.person_roles (agency_id, person_id, role, from_day) values (new_id, terminal, 'Terminal', date '1900-01-01');
    return new_id;
end $$;
grant execute on function portal.agency_id_of(text), portal.agency_ids() to teamcircle_person, teamcircle_agency, teamcircle_job;
grant execute on function portal.make_agency(text, text, text) to teamcircle_agency;
