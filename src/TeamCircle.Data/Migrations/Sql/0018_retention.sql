-- Parts of a record that are destroyed under a rule or at a family's request, and what the trail of changes keeps of them: that they were there,
-- whose, when, by whom, and which destruction emptied them. Their contents go with them.

do $$
declare tab text;
begin
    foreach tab in array array['retention_rules', 'destructions'] loop
        call portal.raise_walls(tab);
        call portal.trail(tab);
    end loop;
end $$;
-- What was proposed stays as it was said; people tell, agree and stop, and only the function below destroys.
grant insert on portal.retention_rules to teamcircle_agency;
grant insert on portal.destructions to teamcircle_agency, teamcircle_job;
grant update (notice_on, to_whom, way, wait_until, agreed_by, agreed_at, stopped_by, stopped_at, stopped_why) on portal.destructions to teamcircle_agency;

alter table portal.retention_rules add constraint retention_rules_years check (
    years between 1 and 100 and counted_from is not null or years is null and counted_from is null);
alter table portal.retention_rules add constraint retention_rules_notice check (notice_days between 30 and 365);
alter table portal.destructions add constraint destructions_why check ((rule_id is null) = (asked_by is not null) and (asked_by is null) = (asked_on is null));
alter table portal.destructions add constraint destructions_told check (
    (notice_on is null) = (wait_until is null) and (notice_on is null) = (to_whom is null) and (notice_on is null) = (way is null));
alter table portal.destructions add constraint destructions_agreed check ((agreed_at is null) = (agreed_by is null) and (agreed_at is null or notice_on is not null));
alter table portal.destructions add constraint destructions_stopped check (
    (stopped_at is null) = (stopped_by is null) and (stopped_at is null) = (stopped_why is null) and (stopped_at is null or destroyed_at is null));
alter table portal.destructions add constraint destructions_two check (destroyed_by is null or (agreed_by is not null and destroyed_by <> agreed_by));
alter table portal.destructions add constraint destructions_done check (
    (destroyed_at is null) = (destroyed_by is null) and (destroyed_at is null) = (destroyed is null)
    and (destroyed_at is null) = (emptied is null) and (destroyed_at is null) = (emptied_hash is null));

-- A note in a closed count can go: figures and days stay, and the sealed count with them. Only the function below sets this, as the owner.
create function portal.destroys() returns boolean language sql stable set search_path = portal, pg_temp
    return coalesce(current_setting('app.destruction', true), '') <> '' and current_user = 'teamcircle_owner';
do $$
declare tab text;
begin
    foreach tab in array array['sessions', 'probes'] loop
        execute format('drop trigger guard_both on portal.%I', tab);
        execute format('create trigger guard_both after update on portal.%1$I referencing old table as old_rows new table as new_rows
                        for each statement when (not portal.destroys()) execute function portal.guard_%1$s_both()', tab);
    end loop;
end $$;

-- The entries of one part of a learner's record up to a day, in the order in which they can go; and the day that each is about.
create function portal.records_of(learner int, part text, up_to date)
    returns table (step int, tab text, key text, on_day date) language sql stable security definer set search_path = portal, pg_temp as $$
    select 1, 'sessions', s.id::text, s.on_day from portal.sessions s
    where part = 'Notes' and s.agency_id = portal.setting_int('app.agency') and s.learner_id = learner and s.on_day <= up_to
        and (coalesce(s.note, s.present, s.practised) is not null or s.filled <> '[]' or exists (
            select from unnest(array[s.declined_reason, s.sent_back_why, s.correction_reason, s.taken_back_reason]) w where w <> '(destroyed)'))
    union all
    select 1, 'trials', t.id::text, p.on_day from portal.trials t join portal.practices p on p.agency_id = t.agency_id and p.id = t.practice_id
    where part = 'Practice' and p.agency_id = portal.setting_int('app.agency') and p.learner_id = learner and p.on_day <= up_to
    union all
    select 2, 'practices', p.id::text, p.on_day from portal.practices p
    where part = 'Practice' and p.agency_id = portal.setting_int('app.agency') and p.learner_id = learner and p.on_day <= up_to
    union all
    select 3, 'set_asides', x.id::text, x.made::date from portal.set_asides x
    where part = 'Practice' and x.agency_id = portal.setting_int('app.agency') and x.learner_id = learner and x.closed_at is not null and x.made::date <= up_to
    union all
    select 1, 'parent_statements', w.id::text, p.on_day from portal.parent_statements w join portal.probes p on p.agency_id = w.agency_id and p.id = w.probe_id
    where part = 'Probes' and p.agency_id = portal.setting_int('app.agency') and p.learner_id = learner and p.on_day <= up_to
    union all
    select 2, 'probes', p.id::text, p.on_day from portal.probes p
    where part = 'Probes' and p.agency_id = portal.setting_int('app.agency') and p.learner_id = learner and p.on_day <= up_to
    union all
    select r.step, r.tab, r.key, e.end_day from portal.reports o
        join portal.periods e on e.agency_id = o.agency_id and e.id = o.period_id
        cross join lateral (
            select 1 as step, 'parent_statements' as tab, w.id::text as key from portal.parent_statements w where w.agency_id = portal.setting_int('app.agency') and w.report_id = o.id
            union all select 2, 'filed_items', f.id::text from portal.filed_items f where f.agency_id = portal.setting_int('app.agency') and f.report_id = o.id
            union all select 3, 'deliveries', d.id::text from portal.deliveries d where d.agency_id = portal.setting_int('app.agency') and d.report_id = o.id
            union all select 4, 'report_signatures', s.id::text from portal.report_signatures s where s.agency_id = portal.setting_int('app.agency') and s.report_id = o.id
            union all select 5, 'report_parts', p.id::text from portal.report_parts p where p.agency_id = portal.setting_int('app.agency') and p.report_id = o.id
            union all select 6, 'report_goals', g.id::text from portal.report_goals g where g.agency_id = portal.setting_int('app.agency') and g.report_id = o.id
            union all select 7, 'reports', o.id::text) r
    where part = 'Reports' and o.agency_id = portal.setting_int('app.agency') and o.learner_id = learner and e.end_day <= up_to
    union all
    select 1, 'routine_pictures', p.id::text, p.recorded_at::date from portal.routine_pictures p
    where part = 'Pictures' and p.agency_id = portal.setting_int('app.agency') and p.learner_id = learner and p.recorded_at::date <= up_to
    union all
    select 1, 'home_logs', h.id::text, h.on_day from portal.home_logs h
    where part = 'FamilyWords' and h.agency_id = portal.setting_int('app.agency') and h.learner_id = learner and h.on_day <= up_to
    union all
    select 2, 'family_remarks', f.id::text, f.said_on from portal.family_remarks f
    where part = 'FamilyWords' and f.agency_id = portal.setting_int('app.agency') and f.learner_id = learner and f.said_on <= up_to
    union all
    select 3, 'family_summaries', f.id::text, f.last_day from portal.family_summaries f
    where part = 'FamilyWords' and f.agency_id = portal.setting_int('app.agency') and f.learner_id = learner and f.last_day <= up_to
$$;

-- What keeps a learner's record from being destroyed up to a day: a hold on records, a request or a hearing that is open (34 CFR 99.10(e)), quiet.
create function portal.kept_by(learner int, part text, up_to date) returns text
    language sql stable security definer set search_path = portal, pg_temp as $$
    select case
        when exists (select from portal.record_holds h where h.agency_id = portal.setting_int('app.agency') and h.learner_id = learner and h.ended_at is null and h.from_day <= up_to
            and exists (select from portal.records_of(learner, part, least(up_to, h.to_day)) r where r.on_day >= h.from_day)) then 'hold'
        when exists (select from portal.record_requests q where q.agency_id = portal.setting_int('app.agency') and q.learner_id = learner
            and (q.answer is null or (q.hearing_asked_on is not null and q.hearing_ended_on is null))) then 'request'
        when exists (select from portal.quiets q where q.agency_id = portal.setting_int('app.agency') and q.learner_id = learner and q.ended_at is null) then 'quiet' end
$$;

-- Destroys what a director agreed to and another person now asks for: how many entries went. Null where there is no such destruction open.
create function portal.destroy_records(which int) returns int language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    agency int := portal.setting_int('app.agency');
    me int := portal.setting_int('app.person');
    here bigint := pg_current_xact_id()::text::bigint;
    d portal.destructions;
    part record;
    n int;
    gone int := 0;
    changed bigint[] := '{}';
begin
    select * into d from portal.destructions x
    where x.agency_id = agency and x.id = which and x.agreed_by is not null and x.agreed_by <> me and x.destroyed_at is null and x.stopped_at is null for update;
    if not found then
        return null;
    end if;
    -- A hold waits for what is under way, as with every other change of a record; and the sealing of blocks does not read what goes meanwhile.
    perform pg_advisory_xact_lock_shared(7202613, agency), pg_advisory_xact_lock(7202612, agency);
    if portal.kept_by(d.learner_id, d.kind, d.up_to) is not null then
        raise exception 'the record is kept' using errcode = 'TC014';
    end if;
    perform set_config('app.destruction', which::text, true);
    for part in select r.step, r.tab, array_agg(r.key) as keys from portal.records_of(d.learner_id, d.kind, d.up_to) r group by r.step, r.tab order by r.step loop
        if part.tab = 'sessions' then
            update portal.sessions s set note = null, present = null, practised = null, filled = '[]',
                declined_reason = case when declined_reason is not null then '(destroyed)' end, sent_back_why = case when sent_back_why is not null then '(destroyed)' end,
                correction_reason = case when correction_reason is not null then '(destroyed)' end, taken_back_reason = case when taken_back_reason is not null then '(destroyed)' end
            where s.agency_id = agency and s.learner_id = d.learner_id and s.id::text = any (part.keys);
        else
            if part.tab = 'practices' then -- the figure of a probe stays, without the practice that it came from
                update portal.probes p set practice_id = null where p.agency_id = agency and p.learner_id = d.learner_id and p.practice_id::text = any (part.keys);
            end if;
            execute format('delete from portal.%I where agency_id = $1 and id::text = any ($2)', part.tab) using agency, part.keys;
        end if;
        get diagnostics n = row_count;
        gone := gone + n;
        -- What this transaction itself wrote was not sealed by anybody: it only loses what stood there before.
        update portal.changes c set before = null where c.agency_id = agency and c.table_name = part.tab and c.row_key = any (part.keys) and c.tx = here and c.at = now();
        with emptied as (
            update portal.changes c set before = null, after = null, destruction_id = which
            where c.agency_id = agency and c.table_name = part.tab and c.row_key = any (part.keys) and (c.tx, c.at) <> (here, now()) and c.destruction_id is null
            returning c.id)
        select changed || coalesce(array_agg(e.id), '{}') into changed from emptied e;
    end loop;
    perform set_config('app.destruction', '', true);
    update portal.destructions x set destroyed_by = me, destroyed_at = now(), destroyed = gone, emptied = cardinality(changed),
        emptied_hash = (select encode(sha256(convert_to(coalesce(string_agg(c::text, ',' order by c), ''), 'UTF8')), 'hex') from unnest(changed) c)
    where x.agency_id = agency and x.id = which;
    return gone;
end $$;

-- Learners whose records may be due: who has left, and when; a plan that runs today says that they are back.
create function portal.days_left() returns table (learner int, left_on date) language sql stable security definer set search_path = portal, pg_temp as $$
    select l.id, (select max(m.last_day) from portal.moves_out m where m.agency_id = portal.setting_int('app.agency') and m.learner_id = l.id and m.live
                  and not exists (select from portal.plans p where p.agency_id = portal.setting_int('app.agency') and p.learner_id = l.id and p.start_day > m.last_day))
    from portal.learners l where l.agency_id = portal.setting_int('app.agency') and l.joined_to is null
$$;

-- Who was told to wait, among millions of lines of the record of access.
create index ix_accesses_too_many on portal.accesses (agency_id, id desc) where page = 'GET too many pages';

revoke execute on function portal.destroys(), portal.records_of(int, text, date), portal.kept_by(int, text, date), portal.destroy_records(int), portal.days_left() from public;
grant execute on function portal.destroys() to teamcircle_person, teamcircle_agency, teamcircle_job;
grant execute on function portal.records_of(int, text, date), portal.kept_by(int, text, date) to teamcircle_agency, teamcircle_job;
grant execute on function portal.days_left() to teamcircle_job;
grant execute on function portal.destroy_records(int) to teamcircle_agency;
