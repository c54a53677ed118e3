using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>
/// Explains every statement of the recorded pages as it was sent, in its transaction with its role and its policies, and lists what read a large
/// table from one end to the other, or read far more rows than it gave.
/// </summary>
internal sealed class PlanCheck(IServiceProvider services, IReadOnlySet<string> large)
{
    /// <summary>Rows that a statement of one person's page may look at in vain, or take from one place of its plan.</summary>
    public const int MostRows = 5_000;

    private readonly HashSet<string> _found = [];

    public int Statements { get; private set; }

    /// <summary>Each once, with the page on which it was found first.</summary>
    public IReadOnlyCollection<string> Found => _found;

    /// <summary>Tables that are large here: those that grow with the agency.</summary>
    public static async Task<IReadOnlySet<string>> LargeAsync(NpgsqlConnection owner)
    {
        await using var command = new NpgsqlCommand("select relname from pg_class where relkind = 'r' and relnamespace = 'portal'::regnamespace and reltuples > 1000", owner);
        await using var rows = await command.ExecuteReaderAsync();
        var names = new HashSet<string>();
        while (await rows.ReadAsync())
            names.Add(rows.GetString(0));
        return names;
    }

    public async Task RunAsync(string page, SentScript script)
    {
        for (var index = 0; index < script.Steps.Count;)
        {
            await using DbContext db = script.Steps[index].IsAccount
                ? await services.GetRequiredService<IDbContextFactory<AccountDb>>().CreateDbContextAsync()
                : await services.GetRequiredService<IDbContextFactory<PortalDb>>().CreateDbContextAsync();
            index = await TransactionAsync((NpgsqlConnection)db.Database.GetDbConnection(), page, script, index);
        }
    }

    private async Task<int> TransactionAsync(NpgsqlConnection connection, string page, SentScript script, int index)
    {
        await connection.OpenAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        if (script.Steps[index].Sql is null)
            index++;
        for (; index < script.Steps.Count && script.Steps[index].Sql is not null; index++)
            await ExplainAsync(connection, page, script.Steps[index]);
        return index + 1;
    }

    private async Task ExplainAsync(NpgsqlConnection connection, string page, SentStep step)
    {
        if (step.Sql!.Contains("set_config", StringComparison.Ordinal))
        {
            await ReadAsync(connection, step.Sql, step); // takes the role, so it has to be done and not explained
            return;
        }
        var sql = step.IsCopy ? step.Sql[(step.Sql.IndexOf('(', StringComparison.Ordinal) + 1)..step.Sql.LastIndexOf(") to stdout", StringComparison.OrdinalIgnoreCase)] : step.Sql;
        using var plan = JsonDocument.Parse((await ReadAsync(connection, $"explain (analyze, format json) {sql}", step))!);
        Statements++;
        Look(page, sql, plan.RootElement[0].GetProperty("Plan"));
    }

    private static async Task<string?> ReadAsync(NpgsqlConnection connection, string sql, SentStep step)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        foreach (var parameter in step.Parameters)
            command.Parameters.Add(parameter.Clone());
        return await command.ExecuteScalarAsync() as string;
    }

    private void Look(string page, string sql, JsonElement node)
    {
        var type = node.GetProperty("Node Type").GetString()!;
        var table = node.TryGetProperty("Relation Name", out var name) ? name.GetString()! : "";
        var removed = node.TryGetProperty("Rows Removed by Filter", out var rows) ? rows.GetDouble() : 0;
        var read = table.Length > 0 ? node.GetProperty("Actual Rows").GetDouble() * node.GetProperty("Actual Loops").GetDouble() : 0;
        if ((type == "Seq Scan" && large.Contains(table)) || removed > MostRows || read > MostRows)
            _found.Add($"{page}: {type} on {table}, {read:0} rows read, {removed:0} in vain: {Short(sql)}");
        if (node.TryGetProperty("Plans", out var plans))
            foreach (var below in plans.EnumerateArray())
                Look(page, sql, below);
    }

    private static string Short(string sql)
    {
        var line = string.Join(' ', sql.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return line.Length > 300 ? line[..300] : line;
    }
}
