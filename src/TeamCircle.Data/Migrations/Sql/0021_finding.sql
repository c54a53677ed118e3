-- Finding by a few letters: names by parts of words, goals and routines by full text, and what is spelled nearly so where nothing is spelled so.
-- Behind a policy an operator that is not leakproof loses its index; so the looking is done by an owner's function that holds to the rights of
-- the transaction itself, and what it finds is joined with the tables under their policies.

-- Small letters without accents, as Core writes what was typed. Plain ASCII, which most names are, takes the short way.
create function portal.plain(t text) returns text language sql immutable parallel safe
    return case when octet_length(t) = char_length(t) then lower(t)
        else regexp_replace(normalize(lower(t), nfd), U&'[\0300-\036F]', '', 'g') end;

-- Each word with two neighbouring letters changed about, as patterns: the slip that three letters at a time don't see in a short word.
create function portal.swapped(word text) returns text[] language sql immutable parallel safe
    return (select array_agg('%' || left(word, i - 1) || substr(word, i + 1, 1) || substr(word, i, 1) || substr(word, i + 2) || '%')
            from generate_series(1, char_length(word) - 1) i);

-- Whether each word from its first letters on is a word of the text, or a form of one ("switches" for "switch"); words like "the" are in every text.
create function portal.has_forms(t tsvector, beside text, words text[]) returns boolean language sql immutable parallel safe
    return not exists (
        select from unnest(words) w
        where position(w in beside) = 0 and not t @@ to_tsquery('english', w || ':*') and numnode(to_tsquery('english', w || ':*')) > 0);

create function portal.goal_words(area text, statement text) returns tsvector language sql immutable parallel safe
    return to_tsvector('english', portal.plain(area || ' ' || statement));
create function portal.routine_words(name text, object_cue text) returns tsvector language sql immutable parallel safe
    return to_tsvector('english', portal.plain(name || ' ' || coalesce(object_cue, '')));

-- What asks the extension, by the name of the schema in which this database has it.
do $$
declare trgm text := (select n.nspname from pg_extension e join pg_namespace n on n.oid = e.extnamespace where e.extname = 'pg_trgm');
begin
    execute format('create function portal.is_like(t text, word text) returns boolean language sql stable parallel safe return t operator(%I.%%>) word', trgm);
    execute format('create index ix_learners_find on portal.learners using gist (agency_id, portal.plain(name || '' '' || code) %I.gist_trgm_ops)', trgm);
    execute format('create index ix_people_find on portal.people using gist (agency_id, portal.plain(name || '' '' || email) %I.gist_trgm_ops)', trgm);
end $$;
create index ix_goals_find on portal.goals using gin (portal.goal_words(area, statement));
create index ix_routines_find on portal.routines using gin (portal.routine_words(name, object_cue));

-- Words of three letters and less must be spelled so: nearly everything is like them.
create function portal.is_near(t text, words text[]) returns boolean language sql stable parallel safe
    return not exists (
        select from unnest(words) w
        where position(w in t) = 0 and not (char_length(w) > 3 and (portal.is_like(t, w) or t like any (portal.swapped(w)))));

-- Under one person's wall: the learners in reach, their goals and routines, and who stands to them today or later.
create function portal.find_own(words text[], today date) returns table (kind text, id int, learner_id int, near boolean)
    language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    agency int := portal.setting_int('app.agency');
    reach int[] := portal.visible_learners();
    managed int[] := array(select l from unnest(reach) l where portal.manages(l));
    parts text[] := array(select '%' || w || '%' from unnest(words) w);
    forms tsquery := (select to_tsquery('english', string_agg(w || ':*', ' | ')) from unnest(words) w);
    is_near boolean;
begin
    if current_setting('app.staff', true) is distinct from '1' then
        return;
    end if;
    perform set_config('pg_trgm.word_similarity_threshold', '0.5', true);
    foreach is_near in array array[false, true] loop
        return query select 'Learner', l.id, l.id, is_near from portal.learners l
            cross join lateral (select portal.plain(concat_ws(' ', l.name, l.code, case when l.id = any (managed) then concat_ws(' ', l.legal_name,
                (select string_agg(n.name, ' ') from portal.learner_names n where n.agency_id = l.agency_id and n.learner_id = l.id)) end)) as names) n
            where l.agency_id = agency and l.id = any (reach) and l.joined_to is null
                and case when is_near then portal.is_near(n.names, words) else n.names like all (parts) end;
        exit when found;
    end loop;
    foreach is_near in array array[false, true] loop
        return query select 'Person', p.id, r.learner_id, is_near from portal.people p join portal.relations r on r.agency_id = p.agency_id and r.person_id = p.id
            where p.agency_id = agency and p.id <> portal.setting_int('app.person') and r.live and r.learner_id = any (reach) and coalesce(r.to_day, today) >= today
                and case when is_near then portal.is_near(portal.plain(p.name), words) else portal.plain(p.name) like all (parts) end
            group by p.id, r.learner_id;
        exit when found;
    end loop;
    foreach is_near in array array[false, true] loop
        return query select 'Goal', g.id, g.learner_id, is_near from portal.goals g join portal.learners l on l.agency_id = g.agency_id and l.id = g.learner_id
            where g.agency_id = agency and g.learner_id = any (reach) and g.live
                and case when is_near then portal.is_near(portal.plain(g.area || ' ' || g.statement), words)
                    else portal.goal_words(g.area, g.statement) @@ forms and portal.has_forms(portal.goal_words(g.area, g.statement), portal.plain(l.name), words) end;
        exit when found;
    end loop;
    foreach is_near in array array[false, true] loop
        return query select 'Routine', o.id, o.learner_id, is_near from portal.routines o join portal.learners l on l.agency_id = o.agency_id and l.id = o.learner_id
            where o.agency_id = agency and o.learner_id = any (reach)
                and case when is_near then portal.is_near(portal.plain(o.name || ' ' || coalesce(o.object_cue, '')), words)
                    else portal.routine_words(o.name, o.object_cue) @@ forms and portal.has_forms(portal.routine_words(o.name, o.object_cue), portal.plain(l.name), words) end;
        exit when found;
    end loop;
end $$;

-- Over a whole agency, by a director or administrator: learners by name or code, and people; whoever is on the list for an administrator, else who
-- gives services today. Nothing of a record. The longest word leads to the rows by the index, the others are held against these.
create function portal.find_all(words text[], today date, everybody boolean, most int) returns table (kind text, id int, learner_id int, near boolean)
    language plpgsql security definer set search_path = portal, pg_temp as $$
declare
    agency int := portal.setting_int('app.agency');
    parts text[] := array(select '%' || w || '%' from unnest(words) w);
    longest text := (select w from unnest(words) w order by char_length(w) desc limit 1);
    slips text[] := portal.swapped(longest);
begin
    perform set_config('pg_trgm.word_similarity_threshold', '0.5', true);
    return query select 'Learner', l.id, l.id, false from portal.learners l
        where l.agency_id = agency and l.joined_to is null and portal.plain(l.name || ' ' || l.code) like '%' || longest || '%'
            and portal.plain(l.name || ' ' || l.code) like all (parts)
        order by l.name, l.id limit most;
    if not found and char_length(longest) > 3 then
        return query select 'Learner', l.id, l.id, true from portal.learners l
            where l.agency_id = agency and l.joined_to is null
                and (portal.is_like(portal.plain(l.name || ' ' || l.code), longest) or portal.plain(l.name || ' ' || l.code) like any (slips))
                and portal.is_near(portal.plain(l.name || ' ' || l.code), words)
            order by l.name, l.id limit most;
    end if;
    return query select 'Person', p.id, null::int, false from portal.people p
        where p.agency_id = agency and portal.plain(p.name || ' ' || p.email) like '%' || longest || '%'
            and portal.plain(case when everybody then p.name || ' ' || p.email else p.name end) like all (parts)
            and (everybody or p.id in (select r.person_id from portal.person_roles r where r.agency_id = agency and r.role in ('Provider', 'CaseManager')
                and r.from_day <= today and coalesce(r.to_day, today) >= today))
            and p.id not in (select r.person_id from portal.person_roles r where r.agency_id = agency and r.role = 'Terminal')
        order by p.name, p.id limit most;
    if not found and char_length(longest) > 3 then
        return query select 'Person', p.id, null::int, true from portal.people p
            where p.agency_id = agency
                and (portal.is_like(portal.plain(p.name || ' ' || p.email), longest) or portal.plain(p.name || ' ' || p.email) like any (slips))
                and portal.is_near(portal.plain(case when everybody then p.name || ' ' || p.email else p.name end), words)
                and (everybody or p.id in (select r.person_id from portal.person_roles r where r.agency_id = agency and r.role in ('Provider', 'CaseManager')
                    and r.from_day <= today and coalesce(r.to_day, today) >= today))
                and p.id not in (select r.person_id from portal.person_roles r where r.agency_id = agency and r.role = 'Terminal')
            order by p.name, p.id limit most;
    end if;
end $$;

revoke execute on all functions in schema portal from public;
-- Whoever writes a row runs what its indexes are made of.
grant execute on function portal.plain(text), portal.goal_words(text, text), portal.routine_words(text, text) to teamcircle_person, teamcircle_agency, teamcircle_job;
grant execute on function portal.find_own(text[], date) to teamcircle_person;
grant execute on function portal.find_all(text[], date, boolean, int) to teamcircle_agency;

-- The learners whose pages one opened last, told from the record of access.
create index ix_accesses_own on portal.accesses (agency_id, person_id, id desc) include (learner_ids) where not refused and not whole_agency and cardinality(learner_ids) = 1;
