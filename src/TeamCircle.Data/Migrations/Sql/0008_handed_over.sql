-- A visit that went to somebody else: who had it is told so by their own feed, whatever way it went (a page, taking back, an import).
do $$
begin
    call portal.raise_walls('handed_over');
    call portal.trail('handed_over');
    grant insert, update on portal.handed_over to teamcircle_person, teamcircle_agency, teamcircle_job;
end $$;

create function portal.note_hand_over() returns trigger language plpgsql set search_path = portal, pg_temp as $$
begin
    insert into portal.handed_over as h (agency_id, learner_id, visit_id, person_id, on_day, start_time, minutes, zone, place, place_id, sequence, at)
    values (old.agency_id, old.learner_id, old.id, old.provider_id, old.on_day, old.start_time, old.minutes, old.zone, old.place, old.place_id,
            greatest(new.sequence, old.sequence + 1), now())
    on conflict (agency_id, visit_id, person_id) do update
        set (on_day, start_time, minutes, zone, place, place_id, sequence, at)
            = (excluded.on_day, excluded.start_time, excluded.minutes, excluded.zone, excluded.place, excluded.place_id, excluded.sequence, excluded.at);
    return null;
end $$;
create trigger note_hand_over after update of provider_id on portal.visits for each row
    when (old.live and old.provider_id <> new.provider_id) execute function portal.note_hand_over();

revoke execute on all functions in schema portal from public;
