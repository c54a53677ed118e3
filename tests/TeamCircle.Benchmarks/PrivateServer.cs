using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Benchmarks;

/// <summary>A PostgreSQL of the benchmark's own, without durability and with this release's schema, for as long as something is measured on it.</summary>
internal static class PrivateServer
{
    private const string Database = "benchmark";

    /// <param name="kept">A folder that keeps the rows from run to run, since making them takes minutes; null for one that is deleted.</param>
    /// <param name="measure">Takes the portal's services as the application role, and how the owner signs in.</param>
    public static async Task UseAsync(string? kept, Func<ServiceProvider, string, Task> measure)
    {
        var folder = kept ?? Path.Combine(Path.GetTempPath(), $"teamcircle-benchmark-{Environment.ProcessId}");
        await using (var server = await PostgresLauncher.StartAsync(new PostgresOptions(folder) { Durable = false }))
        {
            await server.EnsureDatabaseAsync(Database);
            await Migrate.RunAsync(server.ConnectionString(Database));
            await server.AllowSignInAsync();
            await using var services = new ServiceCollection().AddLogging()
                .AddTeamCircleData(server.ConnectionString(Database, Migrate.App)).BuildServiceProvider();
            await measure(services, server.ConnectionString(Database));
        }
        if (kept is null)
            Directory.Delete(folder, recursive: true);
    }
}
