-- A routine's card: its versions, reviews, pictures and holds, and who has seen which cautions in full.

do $$
declare tab text;
begin
    -- Nobody changes a version: what was practised stays as it was written. Reviews and pictures are taken back, never rewritten.
    foreach tab in array array['routine_reviews', 'routine_pictures'] loop
        execute format('grant update (live, taken_back_reason) on portal.%I to teamcircle_person, teamcircle_agency', tab);
    end loop;
end $$;

alter table portal.agencies add constraint agencies_review check (review_months between 1 and 60);
alter table portal.routines add constraint routines_ended check (live = (ended_on is null));
alter table portal.routine_versions add constraint routine_versions_number check (number >= 1);
alter table portal.routine_versions add constraint routine_versions_content check (jsonb_typeof(content) = 'object');
alter table portal.routine_pictures add constraint routine_pictures_size
    check (width between 1 and 1600 and height between 1 and 1600 and length(jpeg) between 1 and 4000000);

-- ---------------------------------------------------------------- holds
-- What was set stays as it was said; a hold only ends.
grant update (ended_by, ended_at, ended_word, agreed_by) on portal.holds to teamcircle_person, teamcircle_agency;

alter table portal.holds add constraint holds_place check (num_nonnulls(routine_id, teach_part, service_id) = 1 and (step_key is null or routine_id is not null));
alter table portal.holds add constraint holds_told check ((told_as = 'Own') = (told_by is null) and (told_as = 'Own') = (told_on is null) and (told_time is null or told_on is not null));
alter table portal.holds add constraint holds_ended check (
    (ended_at is null) = (ended_by is null) and (ended_at is null) = (ended_word is null) and (agreed_by is null or ended_at is not null) and ended_at >= set_at);
alter table portal.agencies add constraint agencies_hold_contact check (hold_contact_hours between 1 and 168);
