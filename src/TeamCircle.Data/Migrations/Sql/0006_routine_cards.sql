-- A routine's card: its versions, reviews and pictures.

-- ---------------------------------------------------------------- a picture stands in the trail as its hash
-- The bytes themselves would stay there for ever, also of a picture that the family asked to remove.
create function portal.hash_picture(facts jsonb) returns jsonb language sql immutable set search_path = portal, pg_temp
    return case when facts ? 'jpeg'
        then jsonb_set(facts, '{jpeg}', to_jsonb('sha256:' || encode(sha256(decode(substr(facts ->> 'jpeg', 3), 'hex')), 'hex')))
        else facts end;
create or replace function portal.note_change() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
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

-- ---------------------------------------------------------------- walls, trail, and what may be written
do $$
declare tab text;
begin
    foreach tab in array array['routine_versions', 'routine_reviews', 'routine_pictures'] loop
        call portal.raise_walls(tab);
        call portal.trail(tab);
        execute format('grant insert on portal.%I to teamcircle_person, teamcircle_agency, teamcircle_job', tab);
    end loop;
    -- Nobody changes a version: what was practised stays as it was written. Reviews and pictures are taken back, never rewritten.
    foreach tab in array array['routine_reviews', 'routine_pictures'] loop
        execute format('grant update (live, taken_back_reason) on portal.%I to teamcircle_person, teamcircle_agency', tab);
    end loop;
end $$;

alter table portal.agencies add constraint agencies_review check (review_months between 1 and 60);
alter table portal.routines add constraint routines_ended check (live = (ended_on is null));
alter table portal.routine_versions add constraint routine_versions_number check (number >= 1);
alter table portal.routine_versions add constraint routine_versions_content check (jsonb_typeof(content) = 'object');
alter table portal.routine_pictures add constraint routine_pictures_size
    check (width between 1 and 1600 and height between 1 and 1600 and length(jpeg) between 1 and 4000000);

revoke execute on all functions in schema portal from public;
