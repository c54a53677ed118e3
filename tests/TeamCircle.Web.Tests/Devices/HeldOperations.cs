using Npgsql;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>Where in the work on one operation the portal is killed.</summary>
public enum Window
{
    BeforeInsert,
    AfterInsert,
    BeforeCommit,
    AfterCommitBeforeTheAnswer,
}

/// <summary>
/// Triggers of a test's own database that hold the work on one operation at a place, by a lock that the test has: so the portal can be killed
/// just there, and knows nothing of it.
/// </summary>
internal sealed class HeldOperations(string connection) : IAsyncDisposable
{
    private const int Lock = 471_100;
    private readonly NpgsqlConnection _holder = new(connection + ";Pooling=false");
    private int _held;

    public async Task InstallAsync()
    {
        await _holder.OpenAsync();
        await RunAsync("""
            create table public.held (id uuid primary key, place text not null);
            create function public.hold() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
            begin
                if exists (select from public.held where id = new.id and place = tg_argv[0]) then
                    perform pg_advisory_xact_lock(471100);
                end if;
                return new;
            end $$;
            create trigger hold_before before insert on portal.operations for each row execute function public.hold('BeforeInsert');
            create trigger hold_after after insert on portal.operations for each row execute function public.hold('AfterInsert');
            create trigger hold_kept before update on portal.operations for each row execute function public.hold('BeforeCommit');
            create constraint trigger hold_commit after insert on portal.operations deferrable initially deferred
                for each row execute function public.hold('AfterCommitBeforeTheAnswer');
            """);
    }

    public async Task HoldAsync(Guid operation, Window window)
    {
        await RunAsync($"select pg_advisory_lock({Lock})");
        await RunAsync($"insert into public.held values ('{operation}', '{window}')");
    }

    /// <summary>Waits until the portal's work stands at the held place.</summary>
    public async Task ReachedAsync(CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(5));
        while (await AskAsync($"select min(pid) from pg_locks where locktype = 'advisory' and objid = {Lock} and not granted") is not int pid || (_held = pid) == 0)
            await pace.WaitForNextTickAsync(stop);
    }

    /// <summary>Lets the database go on, and waits until it has noticed that nobody is there to be answered.</summary>
    public async Task LetGoAsync(CancellationToken stop)
    {
        await RunAsync($"delete from public.held; select pg_advisory_unlock({Lock})");
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(5));
        while (await AskAsync($"select count(*) from pg_stat_activity where pid = {_held}") is not 0L)
            await pace.WaitForNextTickAsync(stop);
    }

    private async Task RunAsync(string sql)
    {
        await using var command = new NpgsqlCommand(sql, _holder);
        await command.ExecuteNonQueryAsync();
    }

    private async Task<object?> AskAsync(string sql)
    {
        await using var command = new NpgsqlCommand(sql, _holder);
        return await command.ExecuteScalarAsync();
    }

    public async ValueTask DisposeAsync() => await _holder.DisposeAsync();
}
