using System.Globalization;
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
/// Triggers of a test's own database that hold the work on operations at places, by locks that the test has: so the portal can be killed
/// just there, and knows nothing of it.
/// </summary>
/// <param name="lane">Tells apart those that hold at the same time.</param>
internal sealed class HeldOperations(string connection, int lane = 0) : IAsyncDisposable
{
    private const int Lock = 471_100;
    private readonly NpgsqlConnection _holder = new(connection + ";Pooling=false");
    private readonly List<int> _waiting = [];
    private int _held;

    public async Task OpenAsync() => await _holder.OpenAsync();

    public static async Task InstallAsync(string connection)
    {
        await using var database = new NpgsqlConnection(connection + ";Pooling=false");
        await database.OpenAsync();
        await using var command = new NpgsqlCommand($$"""
            create table public.held (id uuid primary key, place text not null, lane int not null);
            create function public.hold() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
            begin
                perform pg_advisory_xact_lock({{Lock}}, lane) from public.held where id = new.id and place = tg_argv[0];
                return new;
            end $$;
            create trigger hold_before before insert on portal.operations for each row execute function public.hold('BeforeInsert');
            create trigger hold_after after insert on portal.operations for each row execute function public.hold('AfterInsert');
            create trigger hold_kept before update on portal.operations for each row execute function public.hold('BeforeCommit');
            create constraint trigger hold_commit after insert on portal.operations deferrable initially deferred
                for each row execute function public.hold('AfterCommitBeforeTheAnswer');
            """, database);
        await command.ExecuteNonQueryAsync();
    }

    /// <summary>Each of these will wait at its place.</summary>
    public async Task HoldAsync(IReadOnlyCollection<(Guid Operation, Window Window)> operations)
    {
        _held = operations.Count;
        await RunAsync(string.Create(CultureInfo.InvariantCulture, $"select pg_advisory_lock({Lock}, {lane})"));
        foreach (var (operation, window) in operations)
            await RunAsync(string.Create(CultureInfo.InvariantCulture, $"insert into public.held values ('{operation}', '{window}', {lane})"));
    }

    /// <summary>Waits until the portal's work stands at all held places.</summary>
    public async Task ReachedAsync(CancellationToken stop)
    {
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(5));
        do
        {
            _waiting.Clear();
            await using var command = new NpgsqlCommand(
                string.Create(CultureInfo.InvariantCulture, $"select pid from pg_locks where locktype = 'advisory' and classid = {Lock} and objid = {lane} and not granted"), _holder);
            await using var reader = await command.ExecuteReaderAsync(stop);
            while (await reader.ReadAsync(stop))
                _waiting.Add(reader.GetInt32(0));
        }
        while (_waiting.Count < _held && await pace.WaitForNextTickAsync(stop));
    }

    /// <summary>Lets the database go on, and waits until it has noticed that nobody is there to be answered.</summary>
    public async Task LetGoAsync(CancellationToken stop)
    {
        await ReleaseAsync();
        using var pace = new PeriodicTimer(TimeSpan.FromMilliseconds(5));
        while (await AskAsync($"select count(*) from pg_stat_activity where pid in ({string.Join(',', _waiting)})") is not 0L)
            await pace.WaitForNextTickAsync(stop);
    }

    /// <summary>Lets the database go on and waits for nothing: somebody is still there to be answered.</summary>
    public Task ReleaseAsync() => RunAsync(string.Create(CultureInfo.InvariantCulture, $"delete from public.held where lane = {lane}; select pg_advisory_unlock({Lock}, {lane})"));

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
