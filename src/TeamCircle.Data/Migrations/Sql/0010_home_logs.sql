-- What was practised at home, and how many minutes of visits a person gives a day at most.
do $$
begin
    call portal.raise_walls('home_logs');
    call portal.trail('home_logs');
    grant insert, update on portal.home_logs to teamcircle_person, teamcircle_agency, teamcircle_job;
end $$;
alter table portal.people add constraint people_day check (most_minutes_a_day between 1 and 1440);
