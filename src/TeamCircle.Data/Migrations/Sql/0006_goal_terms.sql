-- What a goal's owners write of it, and dated changes of target and teaching.
do $$
begin
    call portal.raise_walls('goal_changes');
    call portal.trail('goal_changes');
    grant insert, update on portal.goal_changes to teamcircle_person, teamcircle_agency, teamcircle_job;
end $$;

-- Goals that stood before get the usual looks at upkeep; a new one says its own, or none.
alter table portal.goals alter column first_upkeep drop default, alter column second_upkeep drop default, alter column third_upkeep drop default;

alter table portal.goals add constraint goals_criterion check (
    criterion_fewest >= 1 and criterion_people >= 1 and criterion_places >= 1 and criterion_days between 1 and criterion_of);
alter table portal.goals add constraint goals_upkeep check (first_upkeep >= 1 and second_upkeep >= 1 and third_upkeep >= 1);
alter table portal.goals add constraint goals_in_a_row check (in_a_row in (3, 4));
