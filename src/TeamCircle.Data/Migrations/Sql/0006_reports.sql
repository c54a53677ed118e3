-- Progress reports: who may write them, and what of them a family reaches.

do $$
declare tab text;
begin
    foreach tab in array array['reports', 'report_goals', 'report_parts', 'report_signatures'] loop
        execute format('drop policy person on portal.%I', tab);
    end loop;
end $$;
-- A signature stays as it was given.
grant update on portal.reports, portal.report_goals, portal.report_parts to teamcircle_person, teamcircle_agency;

-- A family reaches what was shared with it, never a draft, and never what single people wrote before it was joined.
create policy person on portal.reports to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and (current_setting('app.staff', true) = '1' or (live and shared_at is not null)));
create policy person on portal.report_goals to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and (current_setting('app.staff', true) = '1' or exists (
        select from portal.reports r where r.agency_id = report_goals.agency_id and r.learner_id = report_goals.learner_id and r.id = report_goals.report_id)));
create policy person on portal.report_signatures to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners())
    and (current_setting('app.staff', true) = '1' or exists (
        select from portal.reports r
        where r.agency_id = report_signatures.agency_id and r.learner_id = report_signatures.learner_id and r.id = report_signatures.report_id)));
create policy person on portal.report_parts to teamcircle_person using (
    agency_id = portal.setting_int('app.agency') and learner_id = any (portal.visible_learners()) and current_setting('app.staff', true) = '1');

alter table portal.reports add constraint reports_edition check (edition >= 1);
alter table portal.reports add constraint reports_facts check (facts is null or jsonb_typeof(facts) = 'object');
alter table portal.reports add constraint reports_finished check ((finished_at is null) = (finished_by is null) and (finished_without is null or finished_at is not null));
alter table portal.reports add constraint reports_shared check ((shared_at is null) = (shared_by is null) and (shared_at is null or finished_at is not null));
alter table portal.reports add constraint reports_replaced check (live = (taken_back_reason is null));
alter table portal.report_goals add constraint report_goals_joined check ((status is null) = (joined_by is null) and (joined_at is null) = (joined_by is null));
alter table portal.report_goals add constraint report_goals_reviewed check ((reviewed_at is null) = (reviewed_by is null) and (reviewed_at is null) = (review_word is null));

revoke execute on all functions in schema portal from public;
