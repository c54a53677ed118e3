using Npgsql;
using TeamCircle.Data.Postgres;
using Testcontainers.PostgreSql;

namespace TeamCircle.Testing.Postgres;

/// <summary>
/// The PostgreSQL of one test assembly: the same private server that the portal starts, without durability; or, with
/// <c>TEAMCIRCLE_TEST_POSTGRES=testcontainers</c>, one in a container.
/// </summary>
internal sealed class TestServer : IAsyncDisposable
{
    private readonly Func<string, string, string> _connectionString;
    private readonly Func<Task> _allowSignIn;
    private readonly Func<ValueTask> _stop;

    private TestServer(Func<string, string, string> connectionString, Func<Task> allowSignIn, Func<ValueTask> stop) =>
        (_connectionString, _allowSignIn, _stop) = (connectionString, allowSignIn, stop);

    public string ConnectionString(string database, string role) => _connectionString(database, role);

    public ValueTask DisposeAsync() => _stop();

    /// <summary>Called once the migrations have made the roles.</summary>
    public Task AllowSignInAsync() => _allowSignIn();

    public static Task<TestServer> StartAsync() =>
        Environment.GetEnvironmentVariable("TEAMCIRCLE_TEST_POSTGRES") == "testcontainers" ? InContainerAsync() : PrivateAsync();

    public static TestServer On(DurableServer server) => new(server.ConnectionString, () => Task.CompletedTask, () => ValueTask.CompletedTask);

    private static async Task<TestServer> PrivateAsync()
    {
        await ScratchFolder.SweepAsync();
        var folder = ScratchFolder.Make();
        var server = await PostgresLauncher.StartAsync(new PostgresOptions(folder) { Durable = false });
        return new TestServer(server.ConnectionString, () => server.AllowSignInAsync(), async () =>
        {
            await server.DisposeAsync();
            var told = Canaries.InFiles(Path.Combine(folder, "log"), "*", [.. Canaries.Records, .. Canaries.Secrets]);
            Directory.Delete(folder, recursive: true);
            if (told.Count > 0)
                throw new InvalidOperationException($"The database's log holds what it must not: {string.Join("; ", told)}");
        });
    }

    private static async Task<TestServer> InContainerAsync()
    {
        var container = new PostgreSqlBuilder("postgres:18")
            .WithUsername(PostgresServer.Bootstrap)
            .WithEnvironment("POSTGRES_HOST_AUTH_METHOD", "trust") // every role signs in, as it does on the private socket
            .WithCommand("-c", "fsync=off", "-c", "synchronous_commit=off", "-c", "full_page_writes=off", "-c", "timezone=UTC")
            .Build();
        await container.StartAsync();
        return new TestServer(
            (database, role) => new NpgsqlConnectionStringBuilder(container.GetConnectionString()) { Database = database, Username = role }.ConnectionString,
            () => Task.CompletedTask,
            container.DisposeAsync);
    }
}
