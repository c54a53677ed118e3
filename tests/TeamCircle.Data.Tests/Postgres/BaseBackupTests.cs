using Npgsql;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Postgres;

/// <summary>The private server's files are copied while rows are saved, and a server is started on the copy. Its long form is tests/drills/point-in-time.sh.</summary>
public sealed class BaseBackupTests : IDisposable
{
    private readonly string _folder = ScratchFolder.Make();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Copy => Path.Combine(_folder, "copy");

    public void Dispose()
    {
        NpgsqlConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("/usr/lib/postgresql/15/bin")]
    public async Task Server_starts_on_the_copy_with_all_that_was_saved_before_it_and_nothing_out_of_order(string? programs)
    {
        Assert.SkipUnless(programs is null || Directory.Exists(programs), "This machine has no " + programs);
        await using var server = await PostgresLauncher.StartAsync(Options(Path.Combine(_folder, "live"), programs), Stop);
        await using var writer = new Writer(server.ConnectionString("postgres"));
        var before = await writer.BeginAsync();

        var taken = await TakeBaseBackup.RunAsync(server, Copy, Stop);

        var written = await writer.EndAsync();
        await using var copy = await PostgresLauncher.StartAsync(Options(Path.Combine(Copy, "postgres"), programs), Stop);
        var found = (int)(await AskAsync(copy.ConnectionString("postgres"), "select count(*)::int from saves"))!;
        Assert.InRange(found, before, written);
        Assert.Equal(found, await AskAsync(copy.ConnectionString("postgres"), "select max(n) from saves"));
        Assert.Equal(written, await AskAsync(server.ConnectionString("postgres"), "select count(*)::int from saves"));
        Assert.True(string.CompareOrdinal(taken.FirstLog, taken.LastLog) <= 0);
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(Path.Combine(Copy, "postgres", "cluster")));
    }

    [Fact]
    public async Task Named_server_and_a_folder_that_exists_are_refused_before_anything_is_copied()
    {
        var named = await Assert.ThrowsAsync<StartupFailure>(() => TakeBaseBackup.OfPrivateAsync(_folder, "Host=/run/postgresql", Copy, _ => { }, Stop));
        Assert.Contains("pg_basebackup", named.Message, StringComparison.Ordinal);
        Assert.False(Path.Exists(Copy));

        await using var server = await PostgresLauncher.StartAsync(Options(Path.Combine(_folder, "live"), null), Stop);
        Directory.CreateDirectory(Copy);
        var exists = await Assert.ThrowsAsync<StartupFailure>(() => TakeBaseBackup.RunAsync(server, Copy, Stop));
        Assert.Contains("exists already", exists.Message, StringComparison.Ordinal);
    }

    private static PostgresOptions Options(string folder, string? programs) =>
        programs is null ? new(folder) { Durable = false } : new(folder) { Durable = false, ProgramFolder = programs };

    private static async Task<object?> AskAsync(string connection, string sql)
    {
        await using var database = new NpgsqlConnection(connection + ";Pooling=false");
        await database.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, database);
        return await command.ExecuteScalarAsync(Stop);
    }

    /// <summary>Saves 1, 2, 3 and so on, one after the other.</summary>
    private sealed class Writer(string connection) : IAsyncDisposable
    {
        private readonly CancellationTokenSource _end = new();
        private readonly TaskCompletionSource<int> _begun = new();
        private Task<int> _writing = Task.FromResult(0);

        /// <summary>How many were saved when the first hundred were.</summary>
        public async Task<int> BeginAsync()
        {
            await AskAsync(connection, "create table saves (n int primary key, filler text not null)");
            _writing = Task.Run(WriteAsync);
            return await _begun.Task;
        }

        public async Task<int> EndAsync()
        {
            await _end.CancelAsync();
            return await _writing;
        }

        private async Task<int> WriteAsync()
        {
            await using var database = new NpgsqlConnection(connection + ";Pooling=false");
            await database.OpenAsync(Stop);
            var n = 0;
            while (!_end.IsCancellationRequested)
            {
                await using var command = new NpgsqlCommand("insert into saves values ($1, repeat('x', 500))", database) { Parameters = { new() { Value = n + 1 } } };
                await command.ExecuteNonQueryAsync(Stop);
                if (++n == 100)
                    _begun.SetResult(n);
            }
            return n;
        }

        public async ValueTask DisposeAsync()
        {
            await EndAsync();
            _end.Dispose();
        }
    }
}
