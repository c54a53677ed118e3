-- The family's page: what a family reads in words, what it says, and its rights over the record.

do $$
declare tab text;
begin
    foreach tab in array array['family_remarks', 'family_summaries', 'record_requests', 'parent_statements'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format(
            'create policy person on portal.%I to teamcircle_person
             using (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('grant insert, update on portal.%I to teamcircle_person', tab);
    end loop;
end $$;
-- A parent's statement stays as it was given.
revoke update on portal.parent_statements from teamcircle_person, teamcircle_agency, teamcircle_job;

-- A family reads what was published and not taken back.
create policy person_family on portal.family_summaries for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and live and published_at is not null and withdrawn_at is null);
-- It reads what it typed itself, with the answer: what another home of the child said is not for it.
create policy person_family on portal.family_remarks for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and by_family and entered_by = portal.setting_int('app.person'));
-- It tells the team where the agency has switched that on, in its own name.
create policy person_tells on portal.family_remarks for insert to teamcircle_person with check (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and by_family and entered_by = portal.setting_int('app.person') and answered_at is null
    and exists (select from portal.agencies a where a.id = agency_id and a.family_tells));
-- A statement is shown to whoever is shown what it is about.
create policy person_family on portal.parent_statements for select to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()));

alter table portal.agencies add constraint agencies_family_tells check (not family_tells or family_tells_why is not null);
alter table portal.family_remarks add constraint family_remarks_answered check (
    (answer is null) = (answered_by is null) and (answer is null) = (answered_at is null));
alter table portal.family_summaries add constraint family_summaries_span check (last_day >= first_day and edition >= 1);
alter table portal.family_summaries add constraint family_summaries_content check (jsonb_typeof(content) = 'object');
alter table portal.family_summaries add constraint family_summaries_published check ((published_at is null) = (published_by is null));
alter table portal.family_summaries add constraint family_summaries_withdrawn check (
    (withdrawn_at is null) = (withdrawn_by is null) and (withdrawn_at is null) = (withdrawn_why is null) and (withdrawn_at is null or published_at is not null));
alter table portal.family_summaries add constraint family_summaries_corrects check ((corrects_id is null) = (corrects_why is null));
alter table portal.family_summaries add constraint family_summaries_replaced check (live = (taken_back_reason is null));
alter table portal.record_requests add constraint record_requests_answered check (
    (answer is null) = (answered_on is null) and (answer is null) = (answered_by is null) and (answer is null) = (answer_words is null)
    and answered_on >= received_on);
alter table portal.record_requests add constraint record_requests_refused check (answer is distinct from 'Refused' or notice_on is not null);
alter table portal.record_requests add constraint record_requests_hearing check (
    (hearing_asked_on is null or answer is not distinct from 'Refused') and (hearing_ended_on is null) = (hearing_outcome is null)
    and (hearing_ended_on is null or hearing_ended_on >= hearing_asked_on));
alter table portal.parent_statements add constraint parent_statements_about check (
    (about = 'Visit') = (visit_id is not null) and (about = 'Probe') = (probe_id is not null) and (about = 'Report') = (report_id is not null));

revoke execute on all functions in schema portal from public;
