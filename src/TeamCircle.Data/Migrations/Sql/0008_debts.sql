-- What was brought forward, decisions about it, and compensatory awards.

grant insert, update on portal.debts, portal.awards to teamcircle_person;
-- A decision stays as it was taken; it can only be taken back.
revoke update on portal.debt_decisions from teamcircle_agency, teamcircle_job;
grant insert, update (live, taken_back_reason) on portal.debt_decisions to teamcircle_person, teamcircle_agency;

-- A family reads what is open and what was decided; it writes nothing.
do $$
declare tab text;
begin
    foreach tab in array array['debts', 'debt_decisions', 'awards'] loop
        execute format('drop policy person on portal.%I', tab);
        execute format('create policy person on portal.%I to teamcircle_person
            using (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners()))
            with check (agency_id = portal.setting_int(''app.agency'') and learner_id = any (portal.visible_learners())
                        and current_setting(''app.staff'', true) = ''1'')', tab);
    end loop;
end $$;

alter table portal.debts add constraint debts_about check ((service_id is null) <> (goal_id is null));
alter table portal.debts add constraint debts_amounts check (least(
    make_up, make_up_sessions, meeting, meeting_sessions, undecided, undecided_sessions, paid_before, paid_before_sessions) >= 0);
alter table portal.debts add constraint debts_since check (since >= on_day);
create unique index ix_debts_window on portal.debts (
    agency_id, coalesce(service_id, 0), coalesce(goal_id, 0), coalesce(owner_id, 0), coalesce(period_id, 0), on_day);
alter table portal.debt_decisions add constraint debt_decisions_people check (cardinality(decided_by) >= 1);
alter table portal.debt_decisions add constraint debt_decisions_amount check (amount >= 0 and sessions >= 0 and amount + sessions > 0);
alter table portal.awards add constraint awards_amount check (amount >= 1);
alter table portal.awards add constraint awards_order check (until_day >= from_day);
-- What counts for an award pays for nothing else.
alter table portal.visits add constraint visits_award check (award_id is null or (service_id is not null and pays_on is null));
alter table portal.sessions add constraint sessions_award check (award_id is null or pays_on is null);

revoke execute on all functions in schema portal from public;
