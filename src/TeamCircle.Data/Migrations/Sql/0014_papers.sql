-- Papers around the lessons: days that bind, meetings with their packs, decisions on an extended school year, proof that papers went out. For staff.

do $$
declare tab text;
begin
    foreach tab in array array['bound_dates', 'deliveries', 'meetings', 'extended_years'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format(
            'create policy person on portal.%I to teamcircle_person
             using (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('grant insert on portal.%I to teamcircle_person', tab);
        execute format('revoke update on portal.%I from teamcircle_agency, teamcircle_job', tab);
        execute format('grant update (live, taken_back_reason) on portal.%I to teamcircle_person, teamcircle_agency', tab);
    end loop;
end $$;
-- What was entered stays as it was said: it is done, comes back, is decided, or stands no longer.
grant update (done_on, done_by, done_word) on portal.bound_dates to teamcircle_person, teamcircle_agency;
grant update (returned_on, returned_word) on portal.deliveries to teamcircle_person, teamcircle_agency;
grant update (content) on portal.meetings to teamcircle_person, teamcircle_agency;
grant update (answer, decided_on, reason, took_part, family_told_on, goals) on portal.extended_years to teamcircle_person, teamcircle_agency;

-- Staff read licences, whose days stand with the learners; whoever looks after people writes them.
drop policy person on portal.licences;
create policy person on portal.licences for select to teamcircle_person using (agency_id = portal.setting_int('app.agency') and current_setting('app.staff', true) = '1');
revoke update on portal.licences from teamcircle_agency, teamcircle_job;
grant update (live, taken_back_reason) on portal.licences to teamcircle_agency;
alter table portal.licences add constraint licences_live check (live = (taken_back_reason is null));

alter table portal.bound_dates add constraint bound_dates_done check ((done_on is null) = (done_by is null) and (done_word is null or done_on is not null));
alter table portal.bound_dates add constraint bound_dates_repeat check (repeat_months between 1 and 60);
alter table portal.bound_dates add constraint bound_dates_trial check ((kind = 'Trial') = (from_day is not null));
alter table portal.bound_dates add constraint bound_dates_live check (live = (taken_back_reason is null));
-- One day comes after another once: two people who move it, or do it, at the same time do not both leave one behind.
create unique index ix_bound_dates_follows on portal.bound_dates (agency_id, follows_id) where follows_id is not null;
alter table portal.deliveries add constraint deliveries_paper check (
    (paper = 'Report') = (report_id is not null) and (paper = 'Statement') = (statement_id is not null) and (paper = 'MeetingPack') = (meeting_id is not null)
    and (paper in ('Evaluation', 'PriorNotice')) = (about is not null));
alter table portal.deliveries add constraint deliveries_returned check ((returned_on is null) = (returned_word is null) and returned_on >= sent_on);
alter table portal.deliveries add constraint deliveries_live check (live = (taken_back_reason is null));
alter table portal.meetings add constraint meetings_family check (family_by <= on_day);
alter table portal.meetings add constraint meetings_content check (jsonb_typeof(content) = 'object');
alter table portal.meetings add constraint meetings_live check (live = (taken_back_reason is null));
alter table portal.extended_years add constraint extended_years_decided check (
    (answer is null) = (decided_on is null) and (answer is null) = (reason is null) and (answer is null) = (took_part is null)
    and (family_told_on is null or family_told_on >= decided_on) and (cardinality(goals) = 0 or answer = 'Needed'));
alter table portal.extended_years add constraint extended_years_live check (live = (taken_back_reason is null));

revoke execute on all functions in schema portal from public;
