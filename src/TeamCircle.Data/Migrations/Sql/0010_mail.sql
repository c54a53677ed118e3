-- Mail, quiet, and what runs by the clock: who reaches which of it, and what the database does by itself.

-- ---------------------------------------------------------------- the outbox
-- A person's own transaction adds mails through the functions below alone, and stops those about a learner in reach (quiet). It reads
-- none of a mail's secrets.
drop policy person on portal.outbox;
create policy person on portal.outbox to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));
revoke select on portal.outbox from teamcircle_person;
grant select (agency_id, learner_id, state), update (state, secret, ended_at, answer) on portal.outbox to teamcircle_person;
grant insert, update on portal.outbox to teamcircle_agency, teamcircle_job;

-- Links are made behind the wall of the accounts; their role adds a link's mail in the same transaction.
create policy account on portal.outbox for insert to teamcircle_account with check (kind in ('Invitation', 'NewPassword') and learner_id is null);
grant usage on schema portal to teamcircle_account;
grant insert on portal.outbox to teamcircle_account;

create unique index ix_outbox_slot on portal.outbox (agency_id, person_id, kind, slot) where slot is not null;
create index ix_outbox_recent on portal.outbox (agency_id, slot) where slot is not null;
-- Many changes are one mail until its first try.
create unique index ix_outbox_gathered on portal.outbox (agency_id, person_id, kind, learner_id)
    where state = 'Queued' and tries = 0 and learner_id is not null;
create index ix_outbox_token on portal.outbox (token_hash) where token_hash is not null;
create index ix_outbox_open on portal.outbox (agency_id, not_before) where state in ('Queued', 'Sending');
alter table portal.outbox add constraint outbox_ended check ((state in ('Queued', 'Sending')) = (ended_at is null));
alter table portal.outbox add constraint outbox_secret check (ended_at is null or secret is null);

create function portal.queue_for_family(learner int, mail_kind text) returns void
    language sql security definer set search_path = portal, pg_temp as $$
    insert into portal.outbox (agency_id, id, person_id, kind, learner_id, state, tries)
    select r.agency_id, gen_random_uuid(), r.person_id, mail_kind, r.learner_id, 'Queued', 0
    from (select distinct agency_id, person_id, learner_id from portal.relations
          where agency_id = portal.setting_int('app.agency') and learner_id = learner and kind = 'Family' and live) r
    where mail_kind in ('NewSummary', 'VisitChanged')
        and (current_setting('role', true) in ('teamcircle_agency', 'teamcircle_job') or learner = any (portal.visible_learners()))
        and not exists (select from portal.quiets q where q.agency_id = r.agency_id and q.learner_id = r.learner_id and q.ended_at is null)
    on conflict (agency_id, person_id, kind, learner_id) where state = 'Queued' and tries = 0 and learner_id is not null do nothing
$$;

-- A visit to come that is moved, goes to somebody else or is called off is said to the family, whatever way it went. What was given is
-- no change, and what an import brings is none.
create function portal.note_visit_change() returns trigger language plpgsql security definer set search_path = portal, pg_temp as $$
begin
    if upper(old.during) > now() or upper(new.during) > now() then
        perform portal.queue_for_family(new.learner_id, 'VisitChanged');
    end if;
    return null;
end $$;
create trigger note_visit_change after update on portal.visits for each row
    when (old.live and old.state <> 'Logged' and (new.state <> 'Logged' or not new.takes_time)
          and (old.live, old.state, old.on_day, old.start_time, old.minutes, old.provider_id, old.place, old.place_id)
              is distinct from (new.live, new.state, new.on_day, new.start_time, new.minutes, new.provider_id, new.place, new.place_id)
          and coalesce(current_setting('app.import', true), '') = '')
    execute function portal.note_visit_change();

-- ---------------------------------------------------------------- choices
-- One's own, by oneself.
drop policy person on portal.mail_choices;
create policy person on portal.mail_choices to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and person_id = portal.setting_int('app.person'));
grant insert, update on portal.mail_choices to teamcircle_person;
alter table portal.mail_choices add constraint mail_choices_days check (days between 0 and 127);

-- ---------------------------------------------------------------- quiet
-- What was said when it was set stays; a quiet only ends.
grant insert on portal.quiets to teamcircle_person;
grant update (ended_by, ended_at, ended_reason) on portal.quiets to teamcircle_person, teamcircle_agency;
create unique index ix_quiets_standing on portal.quiets (agency_id, learner_id) where ended_at is null;
alter table portal.quiets add constraint quiets_ended check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (ended_reason is null) and ended_at >= set_at);

-- ---------------------------------------------------------------- jobs
revoke select on portal.job_runs from teamcircle_person;
grant insert on portal.job_runs to teamcircle_job;
-- What has outlived its time is ended by the clock.
grant update (revoked_at, revoked_by) on portal.devices to teamcircle_job;

-- What is done by the clock is done for every agency, in its own zone.
create function portal.agency_zones() returns table (id int, time_zone text) language sql stable security definer set search_path = portal, pg_temp
    as $$ select a.id, a.time_zone from portal.agencies a order by a.id $$;

-- Who unsubscribes says no agency: the address alone leads to a person and a kind.
create function portal.mail_of_token(token bytea) returns table (agency_id int, person_id int, kind text)
    language sql stable security definer set search_path = portal, pg_temp
    as $$ select o.agency_id, o.person_id, o.kind from portal.outbox o where o.token_hash = token $$;

revoke execute on all functions in schema portal from public;
grant execute on function portal.queue_for_family(int, text) to teamcircle_person, teamcircle_agency, teamcircle_job;
grant execute on function portal.mail_of_token(bytea), portal.agency_zones() to teamcircle_job;
