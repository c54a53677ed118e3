using System.Diagnostics;
using Npgsql;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>PostgreSQL's own examination of its tables and indexes, pg_amcheck, where PG_BIN names a folder that has it; the packaged server brings none.</summary>
internal static class AmCheck
{
    /// <summary>Fails where it finds something.</summary>
    /// <returns>What was done, in a sentence.</returns>
    public static async Task<string> RunAsync(DurableServer server, string database, CancellationToken stop)
    {
        var program = Path.Combine(Environment.GetEnvironmentVariable("PG_BIN") ?? "", "pg_amcheck");
        if (!File.Exists(program))
            return "pg_amcheck: not run, for the packaged server brings none.";
        var address = new NpgsqlConnectionStringBuilder(server.ConnectionString(database, PostgresServer.Bootstrap));
        var start = new ProcessStartInfo(program, ["-h", address.Host!, "-U", PostgresServer.Bootstrap, "--install-missing", "--heapallindexed", database]) { RedirectStandardError = true, RedirectStandardOutput = true };
        using var check = Process.Start(start)!;
        var said = check.StandardOutput.ReadToEndAsync(stop);
        var complained = await check.StandardError.ReadToEndAsync(stop);
        await check.WaitForExitAsync(stop);
        Assert.True(check.ExitCode == 0, await said + complained);
        return "pg_amcheck --heapallindexed: nothing found.";
    }
}
