-- Terms, periods, assignments, owners, objectives and relations are set right by a new row; the old one stays, taken back.

-- ---------------------------------------------------------------- what is taken back counts for nothing
alter table portal.periods drop constraint periods_overlap;
alter table portal.periods add constraint periods_overlap
    exclude using gist (agency_id with =, daterange(start_day, end_day, '[]') with &&) where (live);

create or replace procedure portal.guard_periods(tab text) language plpgsql as $$
declare
    pays text := case when exists (select 1 from pg_attribute where attrelid = ('portal.' || quote_ident(tab))::regclass
                                   and attname = 'pays_on') then 'r.pays_on' else 'null::date' end;
    body text := $body$
        create or replace function portal.guard_%1$s_%2$s() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $f$
        declare closed boolean; agencies int[]; learners int[]; periods int[];
        begin
            select array_agg(t.agency_id), array_agg(t.learner_id), array_agg(t.period_id) into agencies, learners, periods
            from (select distinct r.agency_id, r.learner_id, p.id as period_id
                  from (%3$s) r join portal.periods p on p.agency_id = r.agency_id and p.live
                      and (r.on_day between p.start_day and p.end_day or %4$s between p.start_day and p.end_day)
                  order by 1, 2, 3) t;
            if agencies is null then return null; end if;
            insert into portal.learner_periods (agency_id, learner_id, period_id)
                select * from unnest(agencies, learners, periods) on conflict do nothing;
            select bool_or(l.is_closed) into closed from (
                select lp.closed_at is not null as is_closed
                from portal.learner_periods lp join unnest(agencies, learners, periods) as t(a, l, p)
                    on (t.a, t.l, t.p) = (lp.agency_id, lp.learner_id, lp.period_id)
                order by lp.agency_id, lp.learner_id, lp.period_id for share of lp) l;
            if closed and coalesce(current_setting('app.restatement', true), '') = '' then
                raise exception 'the count of this period is closed' using errcode = 'TC001';
            end if;
            return null;
        end $f$ $body$;
begin
    execute format(body, tab, 'new', 'select * from new_rows', pays);
    execute format(body, tab, 'both', 'select * from new_rows union all select * from old_rows', pays);
    execute format('create or replace trigger guard_new after insert on portal.%1$I referencing new table as new_rows
                    for each statement execute function portal.guard_%1$s_new()', tab);
    execute format('create or replace trigger guard_both after update on portal.%1$I referencing old table as old_rows new table as new_rows
                    for each statement execute function portal.guard_%1$s_both()', tab);
end $$;

do $$
declare tab text;
begin
    foreach tab in array array['visits', 'sessions', 'probes', 'decisions'] loop
        call portal.guard_periods(tab);
    end loop;
end $$;
revoke execute on all functions in schema portal from public;

drop policy person on portal.people;
create policy person on portal.people to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and (
        current_setting('app.staff', true) = '1' or id = portal.setting_int('app.person')
        or exists (select 1 from portal.relations r where r.agency_id = people.agency_id and r.person_id = people.id and r.live
                   and r.learner_id = any (portal.visible_learners()))));

-- ---------------------------------------------------------------- a team is written by its case manager
-- One reads one's own relations too, but writes only those of the learners in reach: nobody can add oneself to another's team.
drop policy person on portal.relations;
create policy person on portal.relations for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency')
    and (learner_id = any (portal.visible_learners()) or person_id = portal.setting_int('app.person')));
create policy person_adds on portal.relations for insert to teamcircle_person with check (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));
create policy person_changes on portal.relations for update to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));
grant insert, update on portal.relations to teamcircle_person;
