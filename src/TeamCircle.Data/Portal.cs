using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using TeamCircle.Core;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data;

/// <summary>
/// The one door to the agencies' rows. Every read and every write runs in a transaction that first takes its role and
/// settings; without them the policies show nothing, so a forgotten scope is an empty page, never somebody else's.
/// </summary>
public sealed class Portal(IDbContextFactory<PortalDb> contexts)
{
    /// <summary>How long a transaction may ask for nothing before the database takes it back. A portal that stands still in the midst of an act holds its rows and the act's id, and others wait for these.</summary>
    internal const string LongestStandstill = "60s";

    /// <summary>Reads what stands at one moment: all queries in <paramref name="read"/> see the same snapshot.</summary>
    public async Task<T> ReadAsync<T>(Scope scope, Func<PortalDb, Task<T>> read, CancellationToken stop = default)
    {
        await using var work = await OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        var answer = await read(work.Db);
        await work.CommitAsync(stop);
        return answer;
    }

    /// <summary>
    /// Runs one operation, once: the answer is kept under the operation's id in the same transaction, and a repeat gets
    /// that answer without running again. Refused work leaves nothing behind, so the same form can be mended and sent again.
    /// </summary>
    /// <remarks>An exception means that nothing was saved, or that the database could not be asked whether it was; a repeat
    /// finds out.</remarks>
    /// <typeparam name="T">The answer; a record that JSON can hold.</typeparam>
    public async Task<Outcome<T>> WriteAsync<T>(
        Scope scope, Operation operation, Func<PortalDb, Task<Outcome<T>>> work, CancellationToken stop = default) where T : class
    {
        if (operation.Id == Guid.Empty)
            return Outcome<T>.Refused(Refusals.NoNumber);
        try
        {
            await using var unit = await OpenAsync(scope, IsolationLevel.ReadCommitted, operation, stop);
            if (!await operation.BeginAsync(unit.Db, scope, stop))
                return await operation.FirstAnswerAsync<T>(unit.Db, scope, stop);
            var outcome = await work(unit.Db);
            if (outcome.Value is null)
                return outcome; // disposing the unit takes everything back, the operation's id too
            await unit.Db.SaveChangesAsync(stop);
            await operation.KeepAsync(unit.Db, scope, outcome.Value, stop);
            return await CommitAsync(unit, scope, operation, outcome);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Outcome<T>.Refused(Refusals.ChangedMeanwhile);
        }
        catch (Exception e) when (Refusals.Of(e) is not null)
        {
            return Outcome<T>.Refused(Refusals.Of(e)!);
        }
    }

    // A commit that has begun is not given up, whoever stops waiting for it: otherwise nobody knew whether it took place.
    private async Task<Outcome<T>> CommitAsync<T>(PortalWork unit, Scope scope, Operation operation, Outcome<T> outcome) where T : class
    {
        try
        {
            await unit.CommitAsync(CancellationToken.None);
            return outcome;
        }
        catch (NpgsqlException lost) when (lost is not PostgresException { SqlState: not ['5', '7', ..] })
        {
            if (await FirstAnswerAfterAsync<T>(scope, operation) is { } first)
                return first;
            throw;
        }
    }

    /// <summary>Asks whether a commit took place whose answer was lost: whoever can take the operation's id proves that it did not,
    /// and one that is still under way is waited for. Null where it did not, or where the database can't be asked.</summary>
    private async Task<Outcome<T>?> FirstAnswerAfterAsync<T>(Scope scope, Operation operation) where T : class
    {
        try
        {
            await using var again = await OpenAsync(scope, IsolationLevel.ReadCommitted, operation, CancellationToken.None);
            return await operation.BeginAsync(again.Db, scope, CancellationToken.None)
                ? null
                : await operation.FirstAnswerAsync<T>(again.Db, scope, CancellationToken.None);
        }
        catch (NpgsqlException)
        {
            return null;
        }
    }

    /// <summary>For work that needs the transaction itself (imports, COPY). Disposing without a commit takes it back.</summary>
    public async Task<PortalWork> OpenAsync(Scope scope, IsolationLevel isolation, Operation? operation = null, CancellationToken stop = default)
    {
        var db = await contexts.CreateDbContextAsync(stop);
        // A unit of work is stored whole or not at all: nobody goes back to the middle of one, and each save would ask twice more for it.
        db.Database.AutoSavepointsEnabled = false;
        try
        {
            var transaction = await db.Database.BeginTransactionAsync(isolation, stop);
            await EnterAsync(db, scope, operation, stop);
            return new PortalWork(db, transaction);
        }
        catch
        {
            await db.DisposeAsync();
            throw;
        }
    }

    /// <summary>Opens a second transaction that sees just what an open one sees, to read on two connections at once.</summary>
    /// <param name="first">A repeatable-read transaction of this portal under the same scope.</param>
    /// <returns>Null where the second connection reached another server, which knows no such snapshot.</returns>
    public async Task<PortalWork?> OpenBesideAsync(PortalWork first, Scope scope, CancellationToken stop = default)
    {
        var snapshot = await first.Db.Database.SqlQuery<string>($"select pg_export_snapshot() as \"Value\"").SingleAsync(stop);
        var db = await contexts.CreateDbContextAsync(stop);
        try
        {
            var transaction = await db.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, stop);
            if (!await TakeSnapshotAsync(db, snapshot, stop))
            {
                await db.DisposeAsync();
                return null;
            }
            await EnterAsync(db, scope, null, stop);
            return new PortalWork(db, transaction);
        }
        catch
        {
            await db.DisposeAsync();
            throw;
        }
    }

    // The statement takes no parameter; the name is the server's own.
    private static async Task<bool> TakeSnapshotAsync(PortalDb db, string snapshot, CancellationToken stop)
    {
        try
        {
            await using var take = new NpgsqlCommand($"set transaction snapshot '{snapshot}'", (NpgsqlConnection)db.Database.GetDbConnection());
            await take.ExecuteNonQueryAsync(stop);
            return true;
        }
        catch (PostgresException unknown) when (unknown.SqlState is PostgresErrorCodes.InvalidParameterValue or PostgresErrorCodes.UndefinedObject)
        {
            return false;
        }
    }

    // One statement, and BEGIN travels with it: one round trip. set_config('role') is SET LOCAL ROLE with a parameter.
    private static Task<int> EnterAsync(PortalDb db, Scope scope, Operation? operation, CancellationToken stop) =>
        db.Database.ExecuteSqlRawAsync(
            """
            select set_config('role', {0}, true), set_config('app.agency', {1}, true), set_config('app.person', {2}, true),
                   set_config('app.learners', {3}, true), set_config('app.staff', {4}, true), set_config('app.ground', {5}, true),
                   set_config('app.operation', {6}, true), set_config('idle_in_transaction_session_timeout', {7}, true)
            """,
            [
                scope.Wall switch { Wall.Person => "teamcircle_person", Wall.Agency => "teamcircle_agency", _ => "teamcircle_job" },
                $"{scope.AgencyId}", $"{scope.PersonId}", "{" + string.Join(',', scope.Learners) + "}",
                scope.Staff ? "1" : "", scope.Ground, operation?.Id.ToString() ?? "", LongestStandstill,
            ],
            stop);
}

/// <summary>An open transaction with its scope.</summary>
public sealed class PortalWork(PortalDb db, IDbContextTransaction transaction) : IAsyncDisposable
{
    public PortalDb Db => db;

    /// <summary>The connection inside the transaction, for COPY.</summary>
    public NpgsqlConnection Connection => (NpgsqlConnection)db.Database.GetDbConnection();

    public Task CommitAsync(CancellationToken stop = default) => transaction.CommitAsync(stop);

    public async ValueTask DisposeAsync()
    {
        try
        {
            await transaction.DisposeAsync();
        }
        finally
        {
            await db.DisposeAsync();
        }
    }
}
