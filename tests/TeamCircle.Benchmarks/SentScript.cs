using System.Data;
using System.Data.Common;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TeamCircle.Data;
using TeamCircle.Data.Account;

namespace TeamCircle.Benchmarks;

/// <summary>One thing that a request sends to the database.</summary>
/// <param name="Sql">Null for the begin of a transaction (where <paramref name="Isolation"/> is stated) and for its end.</param>
/// <param name="IsAccount">Whether it goes to the accounts, over their own connection.</param>
internal sealed record SentStep(string? Sql, NpgsqlParameter[] Parameters, IsolationLevel? Isolation, bool IsAccount)
{
    public bool IsCopy => Sql?.StartsWith("copy", StringComparison.OrdinalIgnoreCase) == true;
}

/// <summary>What a page sent to the database and what it answered: a floor does both again by hand, with no sign-in, model, rule or view.</summary>
internal sealed class SentScript(IReadOnlyList<SentStep> steps, byte[] body)
{
    public IReadOnlyList<SentStep> Steps => steps;

    public IEnumerable<string> Statements => steps.Select(s => s.Sql).OfType<string>();

    public async Task AnswerAsync(HttpContext http)
    {
        var (index, services, stop) = (0, http.RequestServices, http.RequestAborted);
        while (index < steps.Count)
            index = steps[index].IsAccount ? await InAccountsAsync(services, index, stop) : await InPortalAsync(services, index, stop);
        http.Response.ContentType = "text/html; charset=utf-8";
        http.Response.ContentLength = body.Length;
        await http.Response.Body.WriteAsync(body, stop);
    }

    private async Task<int> InAccountsAsync(IServiceProvider services, int index, CancellationToken stop)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<AccountDb>>().CreateDbContextAsync(stop);
        return await RunAsync(db, index, stop);
    }

    private async Task<int> InPortalAsync(IServiceProvider services, int index, CancellationToken stop)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<PortalDb>>().CreateDbContextAsync(stop);
        return await RunAsync(db, index, stop);
    }

    /// <summary>The steps of one connection: a transaction from its begin to its end, or one statement without.</summary>
    /// <remarks>The context gives only the connection, of the page's own pool; nothing else of it is used.</remarks>
    private async Task<int> RunAsync(DbContext db, int index, CancellationToken stop)
    {
        var connection = (NpgsqlConnection)db.Database.GetDbConnection();
        await connection.OpenAsync(stop);
        if (steps[index] is { Sql: not null } alone)
        {
            await SendAsync(connection, null, alone, stop);
            return index + 1;
        }
        await using var transaction = await connection.BeginTransactionAsync(steps[index].Isolation!.Value, stop);
        for (index++; index < steps.Count && steps[index].Sql is not null; index++)
            await SendAsync(connection, transaction, steps[index], stop);
        await transaction.CommitAsync(stop);
        return index + 1;
    }

    private static async Task SendAsync(NpgsqlConnection connection, NpgsqlTransaction? transaction, SentStep step, CancellationToken stop)
    {
        if (step.IsCopy)
        {
            await Task.Run(() => Copy(connection, step.Sql!), stop);
            return;
        }
        await using var command = new NpgsqlCommand(step.Sql, connection, transaction);
        foreach (var parameter in step.Parameters)
            command.Parameters.Add(parameter.Clone());
        await using var reader = await command.ExecuteReaderAsync(stop);
        do
        {
            while (await reader.ReadAsync(stop))
                ReadRow(reader);
        }
        while (await reader.NextResultAsync(stop));
    }

    private static void ReadRow(DbDataReader reader)
    {
        for (var column = 0; column < reader.FieldCount; column++)
            _ = reader.GetValue(column);
    }

    private static void Copy(NpgsqlConnection connection, string sql)
    {
        using var rows = connection.BeginBinaryExport(sql);
        for (var columns = rows.StartRow(); columns >= 0; columns = rows.StartRow())
            for (var column = 0; column < columns; column++)
                rows.Skip();
    }
}
