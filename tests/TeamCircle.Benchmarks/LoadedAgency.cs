using NodaTime;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Benchmarks;

/// <summary>A made-up agency in a data folder of its own, as <c>TeamCircle.Cli seed --learners</c> fills it, with its private PostgreSQL started.</summary>
internal sealed class LoadedAgency : IAsyncDisposable
{
    private const string Database = "teamcircle";
    private readonly PostgresServer _server;
    private readonly string _folder;

    private LoadedAgency(PostgresServer server, string folder, int id, int learners) => (_server, _folder, Id, Learners) = (server, folder, id, learners);

    public int Id { get; }

    public int Learners { get; }

    /// <param name="folder">What was <c>TEAMCIRCLE_DATA</c> when it was filled. Of several agencies the largest is taken.</param>
    /// <param name="isDurable">Whether what is committed must be on the disk: where saving is measured.</param>
    public static async Task<LoadedAgency> OpenAsync(string folder, bool isDurable = false)
    {
        folder = Path.GetFullPath(folder);
        var server = await PostgresLauncher.StartAsync(new PostgresOptions(Path.Combine(folder, "postgres")) { Durable = isDurable });
        await server.EnsureDatabaseAsync(Database);
        await Migrate.RunAsync(server.ConnectionString(Database));
        await server.AllowSignInAsync();
        await using var owner = new NpgsqlConnection(server.ConnectionString(Database));
        await owner.OpenAsync();
        await using var command = new NpgsqlCommand("select agency_id, count(*)::int from portal.learners group by agency_id order by 2 desc limit 1", owner);
        await using var rows = await command.ExecuteReaderAsync();
        if (!await rows.ReadAsync())
            throw new InvalidOperationException($"{folder} holds no learners: fill it with TEAMCIRCLE_DATA={folder} and TeamCircle.Cli seed --learners 1000.");
        return new(server, folder, rows.GetInt32(0), rows.GetInt32(1));
    }

    /// <summary>A connection that sees past every wall, to look and to prepare.</summary>
    public async Task<NpgsqlConnection> OwnerAsync()
    {
        var owner = new NpgsqlConnection(_server.ConnectionString(Database));
        await owner.OpenAsync();
        return owner;
    }

    /// <summary>The portal on these rows, on the morning of a day.</summary>
    public LiveSite Site(LocalDate day, bool hasAllJobs = false)
    {
        var morning = day.At(new LocalTime(10, 0)).InZoneLeniently(DateTimeZoneProviders.Tzdb["America/Los_Angeles"]).ToInstant();
        var site = new LiveSite(_server.ConnectionString(Database, Migrate.App), _folder, new ShiftedClock(morning), hasAllJobs);
        site.StartServer();
        return site;
    }

    public ValueTask DisposeAsync() => _server.DisposeAsync();
}
