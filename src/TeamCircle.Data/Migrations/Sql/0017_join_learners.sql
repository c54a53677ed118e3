-- A learner who was entered twice. All that was recorded under the one goes over to the other, row by row with its change row; what both
-- have (a relation of one person, a part of "how we teach", a place, open hours) stays with the one that goes, which is kept and named.
-- Refused by the walls that stand anyway: closed counts, holds on records, two visits of one learner at one time.

-- Whether a row of the doubled entry stays with it, as SQL about t; $1 agency, $3 the entry that stays, $4 services that are the same.
create function portal.stays_behind(tab text) returns text language sql immutable as $$
    select case tab
        when 'services' then 't.id = any ($4)'
        when 'service_versions' then 't.service_id = any ($4)'
        when 'assignments' then 't.service_id = any ($4)'
        when 'relations' then 'exists (select from portal.relations o where o.agency_id = $1 and o.learner_id = $3 and o.person_id = t.person_id
            and o.kind = t.kind and o.live and daterange(o.from_day, o.to_day, ''[]'') && daterange(t.from_day, t.to_day, ''[]''))'
        when 'teach_parts' then 'exists (select from portal.teach_parts o where o.agency_id = $1 and o.learner_id = $3 and o.part = t.part)'
        when 'learner_places' then 'exists (select from portal.learner_places o where o.agency_id = $1 and o.learner_id = $3 and o.kind = t.kind and o.live)'
        when 'open_hours' then 'exists (select from portal.open_hours o where o.agency_id = $1 and o.learner_id = $3)'
        when 'plans' then 'exists (select from portal.plans o where o.agency_id = $1 and o.learner_id = $3)'
        else 'false' end
$$;

-- How many rows went over.
create function portal.join_learners(doubled int, stays int, plan int, same int[], into_services int[], why text) returns int
    language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    agency int := portal.setting_int('app.agency');
    tab text;
    n int;
    moved int := 0;
    kept constant text[] := array['learners', 'changes', 'learner_periods', 'sample_files', 'sample_answers', 'quiets', 'statements', 'sealed_lines', 'reopenings', 'outbox'];
begin
    perform from portal.learners l where l.agency_id = agency and l.id in (doubled, stays) order by l.id for update;
    if exists (select from portal.learner_periods lp where lp.agency_id = agency and lp.learner_id = doubled and lp.closed_at is not null) then
        raise exception 'a count is closed' using errcode = 'TC001';
    end if;
    set constraints all deferred;
    for tab in select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid join pg_attribute s on s.attrelid = c.oid
               where c.relnamespace = 'portal'::regnamespace and c.relkind = 'r' and a.attname = 'learner_id' and s.attname = 'service_id'
                 and c.relname not in ('service_versions', 'assignments') order by 1 loop
        execute format('update portal.%I t set learner_id = $3, service_id = m.into_service from unnest($4, $5) m(was, into_service)
                        where t.agency_id = $1 and t.learner_id = $2 and t.service_id = m.was', tab) using agency, doubled, stays, same, into_services;
        get diagnostics n = row_count;
        moved := moved + n;
    end loop;
    foreach tab in array array['services', 'service_versions', 'assignments', 'relations'] loop
        execute format('update portal.%I t set live = false, taken_back_reason = $5 where t.agency_id = $1 and t.learner_id = $2 and t.live and (%s)',
            tab, portal.stays_behind(tab)) using agency, doubled, stays, same, why;
    end loop;
    for tab in select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid
               where c.relnamespace = 'portal'::regnamespace and c.relkind = 'r' and a.attname = 'plan_id'
                 and exists (select from pg_attribute l where l.attrelid = c.oid and l.attname = 'learner_id') loop
        execute format('update portal.%I t set plan_id = $4 where t.agency_id = $1 and t.learner_id = $2 and $4 is not null and $3 is not null and not (%s)',
            tab, replace(portal.stays_behind(tab), '$4', '$5')) using agency, doubled, stays, plan, same;
    end loop;
    for tab in select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid
               where c.relnamespace = 'portal'::regnamespace and c.relkind = 'r' and a.attname = 'learner_id' and c.relname <> all (kept) order by 1 loop
        execute format('update portal.%I t set learner_id = $3 where t.agency_id = $1 and t.learner_id = $2 and $4 is not null and not (%s)', tab, portal.stays_behind(tab))
            using agency, doubled, stays, same;
        get diagnostics n = row_count;
        moved := moved + n;
    end loop;
    set constraints all immediate;
    return moved;
end $$;
revoke execute on function portal.join_learners(int, int, int, int[], int[], text), portal.stays_behind(text) from public;
grant execute on function portal.join_learners(int, int, int, int[], int[], text) to teamcircle_agency;
