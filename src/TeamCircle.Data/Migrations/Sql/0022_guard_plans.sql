-- The guards of closed counts lock the counts of the rows that a statement wrote, given as lists. For a list the planner takes ten, and so thinks each time that a plan
-- of its own would be cheaper than the one it has: planning the lock of one count was a fiftieth of a visit's saving. Here one plan serves all: two lookups a count.
do $$
declare guard regprocedure;
begin
    for guard in select oid from pg_proc where pronamespace = 'portal'::regnamespace and proname ~ '^guard_.*_(new|both)$' loop
        execute format('alter function %s set plan_cache_mode = force_generic_plan', guard);
    end loop;
end $$;
