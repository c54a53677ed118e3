-- An import leaves one change row, with its files' hashes, for all rows that it adds. Rows that it changes leave their own as
-- always: without them nothing would tell what stood there before.
create or replace procedure portal.trail(tab text) language plpgsql as $$
declare keys text;
begin
    select string_agg(quote_literal(a.attname), ', ' order by a.attnum) into keys
    from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = any (i.indkey)
    where i.indrelid = ('portal.' || quote_ident(tab))::regclass and i.indisprimary and a.attname <> 'agency_id';
    execute format(
        'create trigger trail after update or delete on portal.%I for each row execute function portal.note_change(%s)', tab, keys);
    execute format(
        'create trigger trail_new after insert on portal.%I for each row
         when (coalesce(current_setting(''app.import'', true), '''') = '''') execute function portal.note_change(%s)', tab, keys);
end $$;

do $$
declare tab text;
begin
    for tab in select c.relname from pg_trigger t join pg_class c on c.oid = t.tgrelid
               where t.tgname = 'trail' and t.tgtype & 4 = 4 and c.relnamespace = 'portal'::regnamespace loop
        execute format('drop trigger trail on portal.%I', tab);
        call portal.trail(tab);
    end loop;
end $$;
