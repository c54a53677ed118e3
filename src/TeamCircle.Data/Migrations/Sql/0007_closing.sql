-- Closing a count: who reaches statements, and what of the plan a closed count holds fast.

do $$
declare tab text;
begin
    foreach tab in array array['statements', 'sealed_lines', 'reopenings'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format('create policy person on portal.%I to teamcircle_person using (
            agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
    end loop;
end $$;
-- An outside reviewer reads the statements of the files that are open today, which are the learners in reach.
do $$
declare tab text;
begin
    foreach tab in array array['statements', 'sealed_lines'] loop
        execute format('create policy reviewer on portal.%1$I for select to teamcircle_person using (
            agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and exists (
                select from portal.relations r where r.agency_id = %1$I.agency_id and r.learner_id = %1$I.learner_id
                    and r.person_id = portal.setting_int(''app.person'') and r.kind = ''Reviewer'' and r.live))', tab);
    end loop;
end $$;
-- A statement and its lines stay as they were signed; of a request only its answer comes later. The lines leave no change of their own: the
-- statement's hash, which is in the trail, stands for them.
grant insert on portal.sealed_lines to teamcircle_person, teamcircle_agency, teamcircle_job;
grant update (answered_by, answered_at, granted, answer, version) on portal.reopenings to teamcircle_person, teamcircle_agency;

alter table portal.learner_periods add constraint learner_periods_closed check (closed_by is null or closed_at is not null);
alter table portal.learner_periods add constraint learner_periods_days check (
    (first_day is null) = (last_day is null) and last_day >= first_day and (first_day is null or closed_at is not null));
alter table portal.statements add constraint statements_edition check (
    edition >= 1 and (edition = 1) = (restates_id is null) and (edition = 1) = (reason is null) and (reopened_by is null or edition > 1));
alter table portal.statements add constraint statements_hash check (hash ~ '^[0-9a-f]{64}$' and (block_hash is null or block_hash ~ '^[0-9a-f]{64}$'));
alter table portal.sealed_lines add constraint sealed_lines_about check ((service_id is null) <> (goal_id is null) and (owner_id is null or goal_id is not null));
alter table portal.reopenings add constraint reopenings_answered check (
    (answered_by is null) = (answered_at is null) and (answered_by is null) = (granted is null) and (answered_by is null) = (answer is null));
-- A second person means another one.
alter table portal.reopenings add constraint reopenings_second check (answered_by <> asked_by);
alter table portal.statements add constraint statements_second check (reopened_by <> sealed_by);

-- Whoever closes a count holds all counts of the learner: nothing that bears on it is written meanwhile, wherever it is dated.
create function portal.lock_counts(learner int) returns void language plpgsql security definer set search_path = portal, pg_temp as $$
declare agency int := portal.setting_int('app.agency');
begin
    insert into portal.learner_periods (agency_id, learner_id, period_id)
        select l.agency_id, l.id, p.id from portal.learners l join portal.periods p on p.agency_id = l.agency_id and p.live
        where l.agency_id = agency and l.id = learner and l.id = any (portal.visible_learners()) order by p.id on conflict do nothing;
    perform from portal.learner_periods lp where lp.agency_id = agency and lp.learner_id = learner and learner = any (portal.visible_learners())
        order by lp.period_id for update;
end $$;

-- What a count rests on beside dated facts: services and their versions, goals, what probes are asked and of whom, the agency's calendar and
-- policy. Each holds on a range of days; a change is refused where the days on which it makes a difference touch a closed count. Operations
-- on closures and terms look closer and refuse before: they work the closed counts out before and after.
-- ranges_new, ranges_both: SQL for the agency, the learner (null: all), and the first and last day on which the change makes a difference.
create procedure portal.guard_ranges(tab text, ranges_new text, ranges_both text) language plpgsql as $$
declare
    body text := $body$
        create function portal.guard_%1$s_%2$s() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $f$
        begin
            insert into portal.learner_periods (agency_id, learner_id, period_id)
                select p.agency_id, c.learner_id, p.id from (select distinct agency_id, learner_id from (%3$s) r where learner_id is not null) c
                join portal.periods p on p.agency_id = c.agency_id and p.live order by 1, 2, 3 on conflict do nothing;
            perform from portal.learner_periods lp where (lp.agency_id, lp.learner_id) in (select agency_id, learner_id from (%3$s) r)
                order by lp.agency_id, lp.learner_id, lp.period_id for share;
            if exists (
                select from (%3$s) r
                join portal.learner_periods lp on lp.agency_id = r.agency_id and lp.learner_id = coalesce(r.learner_id, lp.learner_id) and lp.closed_at is not null
                join portal.periods p on p.agency_id = lp.agency_id and p.id = lp.period_id and p.live
                where r.first_day <= coalesce(lp.last_day, p.end_day) and coalesce(lp.first_day, p.start_day) <= r.last_day
                    and coalesce(current_setting('app.restatement', true), '') <> lp.learner_id || '/' || lp.period_id) then
                raise exception 'the count of this period is closed' using errcode = 'TC001';
            end if;
            return null;
        end $f$ $body$;
begin
    execute format(body, tab, 'new', ranges_new);
    execute format(body, tab, 'both', ranges_both);
    execute format('create trigger guard_new after insert on portal.%1$I referencing new table as new_rows
                    for each statement execute function portal.guard_%1$s_new()', tab);
    execute format('create trigger guard_both after update on portal.%1$I referencing old table as old_rows new table as new_rows
                    for each statement execute function portal.guard_%1$s_both()', tab);
end $$;

-- counting: the columns beside the dates that make a difference. learner: SQL for the learner of n.
create procedure portal.guard_plan(tab text, first_day text, last_day text, counting text[], learner text default 'n.learner_id') language plpgsql as $$
declare
    pairs text := ' from old_rows o join new_rows n on n.agency_id = o.agency_id and n.id = o.id where (o.live or n.live) and ';
    one text := 'select n.agency_id, ' || learner || ' as learner_id, (%s)::date as first_day, (%s)::date as last_day';
    earliest text := 'least(o.' || first_day || ', n.' || first_day || ')';
    latest text := case last_day when 'infinity' then '''infinity''' else 'greatest(o.' || last_day || ', n.' || last_day || ')' end;
    both_ways text;
begin
    both_ways := format(one, earliest, latest) || pairs || (
        select format('(%s) is distinct from (%s)', string_agg('o.' || c, ', '), string_agg('n.' || c, ', ')) from unnest(counting) c);
    both_ways := both_ways || ' union all ' || format(one, earliest, 'greatest(o.' || first_day || ', n.' || first_day || ') - 1')
        || pairs || 'o.' || first_day || ' <> n.' || first_day;
    if last_day <> 'infinity' then
        both_ways := both_ways || ' union all ' || format(one, 'least(o.' || last_day || ', n.' || last_day || ') + 1', latest)
            || pairs || 'o.' || last_day || ' <> n.' || last_day;
    end if;
    call portal.guard_ranges(tab,
        format(one, 'n.' || first_day, case last_day when 'infinity' then '''infinity''' else 'n.' || last_day end) || ' from new_rows n where n.live', both_ways);
end $$;
call portal.guard_plan('services', 'from_day', 'to_day', '{live,plan_id,kind,terms,short_window,wording,every_unit,every_count}');
call portal.guard_plan('service_versions', 'from_day', 'infinity', '{live,quantity,sessions,assistants_count}');
call portal.guard_plan('assignments', 'from_day', 'to_day', '{live,person_id}');
call portal.guard_plan('goals', 'from_day', 'to_day', '{live,plan_id}');
call portal.guard_plan('probe_commitments', 'from_day', 'infinity', '{live,probes,every_unit,every_count,by_each}');
call portal.guard_plan('goal_owners', 'from_day', 'to_day', '{live,person_id}');
-- A term that changes is a new row beside the old one, which says nothing of the days on which they differ: SetTerms works the closed counts out.
call portal.guard_plan('closures', 'on_day', 'on_day', '{live,kind}', 'null::int');
call portal.guard_plan('periods', 'start_day', 'end_day', '{live,id}', 'null::int');
call portal.guard_plan('policies', 'from_day', 'infinity', '{live,short_window,surplus,tolerance_percent,session_share}', 'null::int');
-- The first policy of an agency comes with a row that says what held until then: it begins in the past and changes nothing. Later ones begin
-- with a period still to come.
drop trigger guard_new on portal.policies;
drop function portal.guard_policies_new();

revoke execute on all functions in schema portal from public;
grant execute on function portal.lock_counts(int) to teamcircle_person;
