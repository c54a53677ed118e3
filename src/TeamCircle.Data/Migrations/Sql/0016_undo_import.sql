-- An import taken back: what it brought is removed, what it changed stands as before. Nobody but this function removes such rows,
-- and the trail keeps every one of them as it was. It refuses where anything was built upon the import since.

revoke all on portal.import_additions from teamcircle_person;
revoke update on portal.import_additions from teamcircle_agency, teamcircle_job;

-- Rows that rest on each other are put back, or go over to another learner, in any order within one transaction; what does not fit at its
-- end takes it all back. (A row that another rests on is never removed, in any order.)
do $$
declare c record;
begin
    for c in select conrelid::regclass as tab, conname from pg_constraint where contype = 'f' and connamespace = 'portal'::regnamespace loop
        execute format('alter table %s alter constraint %I deferrable initially immediate', c.tab, c.conname);
    end loop;
end $$;

-- The columns of a table's key without the agency's, in the order in which the trail writes them.
create function portal.key_columns(tab text) returns text[] language sql stable set search_path = portal, pg_temp as $$
    select array_agg(a.attname::text order by a.attnum) from pg_index i
    join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any (i.indkey)
    where i.indrelid = ('portal.' || quote_ident(tab))::regclass and i.indisprimary and a.attname <> 'agency_id'
$$;

-- Puts a row back as it stood before the import changed it.
create procedure portal.put_back(tab text, was jsonb) language plpgsql as $$
declare
    keys text[] := portal.key_columns(tab) || case when was ? 'agency_id' then array['agency_id'] else '{}' end;
    cols text;
begin
    select string_agg(format('%1$I = o.%1$I', attname), ', ') into cols from pg_attribute
    where attrelid = ('portal.' || quote_ident(tab))::regclass and attnum > 0 and not attisdropped and attgenerated = ''
        and attidentity = '' and attname <> 'version' and attname::text <> all (keys);
    execute format('update portal.%1$I t set %2$s from jsonb_populate_record(null::portal.%1$I, $1) o where %3$s', tab, cols,
        (select string_agg(format('t.%1$I = o.%1$I', k), ' and ') from unnest(keys) k)) using was;
end $$;

-- Removes rows that the import added, and tells whose learners' they were.
create procedure portal.remove_added(agency int, tab text, row_keys text[], inout learners int[], inout removed int) language plpgsql as $$
declare
    keys text[] := portal.key_columns(tab);
    is_theirs text := case when cardinality(keys) = 1
        then format('%I = any ($2::%s[])', keys[1], (select format_type(atttypid, atttypmod) from pg_attribute
                    where attrelid = ('portal.' || quote_ident(tab))::regclass and attname = keys[1]))
        else format('concat_ws(''/'', %s) = any ($2)', (select string_agg(quote_ident(k), ', ') from unnest(keys) k)) end;
    theirs int[];
    n int;
begin
    if tab = 'learners' or exists (select from pg_attribute where attrelid = ('portal.' || quote_ident(tab))::regclass and attname = 'learner_id') then
        execute format('select array_agg(distinct %I) from portal.%I where agency_id = $1 and %s',
            case tab when 'learners' then 'id' else 'learner_id' end, tab, is_theirs) into theirs using agency, row_keys;
        learners := (select array_agg(distinct l) from unnest(learners || theirs) l where l is not null);
    end if;
    if tab = 'learners' then -- their open counts began by themselves with their first fact
        delete from portal.learner_periods lp where lp.agency_id = agency and lp.closed_at is null and lp.learner_id::text = any (row_keys);
    end if;
    execute format('delete from portal.%I where agency_id = $1 and %s', tab, is_theirs) using agency, row_keys;
    get diagnostics n = row_count;
    removed := removed + n;
end $$;

-- Whether a change is of nobody's import that was undone, and not of the undoing: then it stands.
create function portal.still_stands(agency int, change_tx bigint) returns boolean language sql stable set search_path = portal, pg_temp as $$
    select not exists (select from portal.imports u where u.agency_id = agency and u.undone_at is not null and change_tx in (u.tx, u.undone_tx))
$$;

-- How many rows were removed or put back.
create function portal.undo_import(which int) returns int language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    agency int := portal.setting_int('app.agency');
    brought portal.imports;
    step record;
    learners int[] := '{}';
    done int := 0;
    where_built text;
begin
    perform pg_advisory_xact_lock(7202612, agency);
    select * into brought from portal.imports i where i.agency_id = agency and i.id = which and i.undone_at is null for update;
    if not found then
        return null;
    end if;
    select c.table_name into where_built
    from portal.import_additions a cross join unnest(a.row_keys) k
    join portal.changes c on c.agency_id = a.agency_id and c.table_name = a.table_name and c.row_key = k
    where a.agency_id = agency and a.import_id = which and (c.tx, c.at) <> (brought.tx, brought.at) and portal.still_stands(agency, c.tx) limit 1;
    if where_built is null then
        select later.table_name into where_built
        from portal.changes c join portal.changes later on later.agency_id = c.agency_id and later.table_name = c.table_name
            and later.row_key = c.row_key and later.id > c.id and (later.tx, later.at) <> (brought.tx, brought.at) and portal.still_stands(agency, later.tx)
        where c.agency_id = agency and c.tx = brought.tx and c.at = brought.at and c.act = 'update' limit 1;
    end if;
    if where_built is not null then
        raise exception 'changed since the import' using errcode = 'TC012', table = where_built;
    end if;
    set constraints all deferred;
    for step in select a.table_name, a.row_keys from portal.import_additions a
                where a.agency_id = agency and a.import_id = which order by a.id desc loop
        call portal.remove_added(agency, step.table_name, step.row_keys, learners, done);
    end loop;
    for step in select c.table_name, c.before, c.learner_id from portal.changes c
                where c.agency_id = agency and c.tx = brought.tx and c.at = brought.at and c.act = 'update' order by c.id desc loop
        call portal.put_back(step.table_name, step.before);
        learners := learners || step.learner_id;
        done := done + 1;
    end loop;
    if exists (select from portal.learner_periods lp where lp.agency_id = agency and lp.learner_id = any (learners) and lp.closed_at >= brought.at) then
        raise exception 'a count was closed since the import' using errcode = 'TC013';
    end if;
    if exists (select from portal.record_holds h where h.agency_id = agency and h.learner_id = any (learners) and h.set_at >= brought.at and h.ended_at is null) then
        raise exception 'records are held since the import' using errcode = 'TC011';
    end if;
    set constraints all immediate;
    return done;
exception when foreign_key_violation or restrict_violation then
    get stacked diagnostics where_built = table_name;
    raise exception 'built upon since the import' using errcode = 'TC012', table = where_built;
end $$;
revoke execute on function portal.undo_import(int), portal.key_columns(text), portal.still_stands(int, bigint) from public;
revoke execute on procedure portal.put_back(text, jsonb), portal.remove_added(int, text, text[], int[], int) from public;
grant execute on function portal.undo_import(int) to teamcircle_agency;
