using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.History;

namespace TeamCircle.Data.History;

/// <summary>
/// Seals what was changed since the last block of an agency into the next one (docs/decisions/0005-sealed-blocks.md). A change
/// belongs to a block once every transaction as old as its own has ended; until then it waits for a later one.
/// </summary>
public sealed class SealChanges(Portal portal, TimeProvider clock, SealKey key)
{
    private const int Lease = 7202612;

    /// <returns>How many changes were sealed: none where there were none, or where another process is at it.</returns>
    /// <exception cref="StartupFailure">The key is missing or another one than before, or the database was moved by other means
    /// than a restore. Nothing was sealed.</exception>
    public async Task<int> RunAsync(int agency, CancellationToken stop = default)
    {
        // Not repeatable read: what follows the lease must see the block of whoever held it before.
        await using var work = await portal.OpenAsync(Scope.Job(agency, 0, "sealing"), IsolationLevel.ReadCommitted, null, stop);
        if (!await work.Db.Database.SqlQuery<bool>($"select pg_try_advisory_xact_lock({Lease}, {agency}) as \"Value\"").SingleAsync(stop))
            return 0;
        var last = await work.Db.Blocks.AsNoTracking().Where(b => b.AgencyId == agency).OrderByDescending(b => b.Id).FirstOrDefaultAsync(stop);
        var (horizon, next) = await RunningAsync(work.Connection, stop);
        Refuse(last, next);
        var block = await CollectAsync(work.Connection, agency, last, horizon, stop);
        if (block.Changes > 0)
            work.Db.Add(Sealed(block, last));
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return block.Changes;
    }

    /// <summary>The oldest running transaction of the server, and the number that the next one gets.</summary>
    private static async Task<(long Oldest, long Next)> RunningAsync(NpgsqlConnection database, CancellationToken stop)
    {
        const string Question = "select pg_snapshot_xmin(s)::text::bigint, pg_snapshot_xmax(s)::text::bigint from pg_current_snapshot() s";
        await using var command = new NpgsqlCommand(Question, database);
        await using var reader = await command.ExecuteReaderAsync(stop);
        await reader.ReadAsync(stop);
        return (reader.GetInt64(0), reader.GetInt64(1));
    }

    private void Refuse(BlockRow? last, long next)
    {
        if (last is null)
            return;
        if (last.Horizon > next)
            throw new StartupFailure("The changes can't be sealed: this database was moved here by other means than 'TeamCircle.Cli restore'. Take a backup of it with 'TeamCircle.Cli backup' and restore that into an empty database.");
        if (!last.Code.AsSpan().SequenceEqual(Seal.Code(key.Read(), last.Hash)))
            throw new StartupFailure($"The changes can't be sealed: the key in {key.Path} is not the one that sealed them so far. Put that one back, or set TEAMCIRCLE_SEAL_KEY to where it is.");
    }

    // Whatever an earlier horizon passed is in a block. A restore sets horizons to 0: then the blocks themselves are asked, once.
    private async Task<BlockRow> CollectAsync(NpgsqlConnection database, int agency, BlockRow? last, long horizon, CancellationToken stop)
    {
        var (ids, leaves) = (new List<long>(), new List<byte[]>());
        var condition = "c.tx >= $2 and c.tx < $3" + (last is { Horizon: 0 } ? $" and {ChangeRows.InNoBlock}" : "");
        await foreach (var (change, _, _) in ChangeRows.ReadAsync(database, agency, condition, [last?.Horizon ?? 0, horizon], stop))
        {
            ids.Add(change.Id);
            leaves.Add(change.Hash());
        }
        return new BlockRow
        {
            AgencyId = agency,
            SealedAt = Microsecond.Now(clock),
            Changes = ids.Count,
            ChangeIds = [.. ids],
            Leaves = [.. leaves.SelectMany(l => l)],
            Root = HashTree.Root(leaves),
            Previous = last?.Hash ?? Seal.Beginning,
            Hash = [],
            Code = [],
            Horizon = horizon,
        };
    }

    private BlockRow Sealed(BlockRow block, BlockRow? last)
    {
        block.Hash = block.Seal().Hash();
        block.Code = Seal.Code(last is null ? key.ReadOrMake() : key.Read(), block.Hash);
        return block;
    }
}
