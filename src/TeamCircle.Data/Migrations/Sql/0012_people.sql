-- Substitutes, assistants and who has read the plan: what persons write, and what can never be right.

-- What was read stays as it was read: nobody changes or unsays it, and each says it of oneself alone.
revoke update on portal.read_firsts, portal.acknowledgments from teamcircle_agency, teamcircle_job;
grant insert on portal.read_firsts, portal.acknowledgments to teamcircle_person;
do $$
declare tab text;
begin
    foreach tab in array array['read_firsts', 'acknowledgments'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format('create policy person on portal.%I for select to teamcircle_person using (
            agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('create policy person_adds on portal.%I for insert to teamcircle_person with check (
            agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and person_id = portal.setting_int(''app.person''))', tab);
    end loop;
    -- What colleagues note about one another is no family's.
    foreach tab in array array['supervisions', 'observations'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format('create policy person on portal.%I to teamcircle_person using (
            agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()) and current_setting(''app.staff'', true) = ''1'')', tab);
        execute format('grant insert, update on portal.%I to teamcircle_person', tab);
    end loop;
end $$;

alter table portal.supervisions add constraint supervisions_every check (every_unit in ('Week', 'Month') and every_count between 1 and 52);
alter table portal.supervisions add constraint supervisions_order check (to_day >= from_day);
alter table portal.observations add constraint observations_minutes check (minutes between 1 and 720);
alter table portal.observations add constraint observations_other check (observer_id <> assistant_id);
alter table portal.sessions add constraint sessions_withheld check (withheld is null or credited = 0);
alter table portal.sessions add constraint sessions_countersigned check (
    (countersigned_by is null) = (countersigned_at is null) and (countersigned_at is null or supervisor_id is not null));
-- Nobody countersigns what they gave themselves.
alter table portal.sessions add constraint sessions_countersigned_other check (countersigned_by <> provider_id);

revoke execute on all functions in schema portal from public;
