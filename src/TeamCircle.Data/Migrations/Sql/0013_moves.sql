-- People and learners who come and go: for staff only; what a family is told of it stands in its own pages.

do $$
declare tab text;
begin
    foreach tab in array array['learner_hand_overs', 'filed_items', 'moves_in', 'move_in_services', 'asked_records', 'moves_out', 'transfer_files'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format(
            'create policy person on portal.%I to teamcircle_person
             using (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('grant insert, update on portal.%I to teamcircle_person', tab);
    end loop;
end $$;
-- What was filed stays as it was filed.
revoke update on portal.filed_items from teamcircle_person, teamcircle_agency, teamcircle_job;

-- Colleagues and case managers read a last day; an administrator sets it.
drop policy person on portal.last_days;
create policy person on portal.last_days for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and current_setting('app.staff', true) = '1');
alter table portal.last_days add constraint last_days_replaced check (live = (taken_back_reason is null));
alter table portal.last_days add constraint last_days_finished check ((finished_at is null) = (finished_by is null));

alter table portal.learner_hand_overs add constraint learner_hand_overs_days check (from_day > last_day and to_person_id is distinct from person_id);
alter table portal.learner_hand_overs add constraint learner_hand_overs_undone check (
    (undone_at is null) = (undone_by is null) and (undone_at is null) = (undone_reason is null));
alter table portal.filed_items add constraint filed_items_about check (num_nonnulls(visit_id, report_id) = 1);
alter table portal.moves_in add constraint moves_in_decided check (
    (status = 'Comparable') = (decided_on is null) and (decided_on is null) = (decided_by is null) and (decided_on is null) = (decided_words is null)
    and decided_on >= first_day);
alter table portal.moves_in add constraint moves_in_state check (not (other_state and status = 'Adopted'));
alter table portal.move_in_services add constraint move_in_services_replaced check (live = (taken_back_reason is null));
alter table portal.asked_records add constraint asked_records_received check (received_on >= asked_on);
alter table portal.moves_out add constraint moves_out_replaced check (live = (taken_back_reason is null));
alter table portal.moves_out add constraint moves_out_read check (read_until >= last_day);
alter table portal.transfer_files add constraint transfer_files_content check (jsonb_typeof(content) = 'object');
alter table portal.transfer_files add constraint transfer_files_sent check (
    (sent_on is null) = (sent_to is null) and (sent_on is null) = (sent_how is null) and (sent_on is null) = (sent_by is null));

-- A file says for ever what it said when it was made; only how it was sent is added.
create function portal.keep_transfer_file() returns trigger language plpgsql set search_path = portal, pg_temp as $$
begin
    if (new.agency_id, new.learner_id, new.move_out_id, new.content, new.made_by, new.made_at)
        is distinct from (old.agency_id, old.learner_id, old.move_out_id, old.content, old.made_by, old.made_at) then
        raise exception 'a file that was made does not change' using errcode = '42501';
    end if;
    return new;
end $$;
create trigger keep_content before update on portal.transfer_files for each row execute function portal.keep_transfer_file();

revoke execute on all functions in schema portal from public;
