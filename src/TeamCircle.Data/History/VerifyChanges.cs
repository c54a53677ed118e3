using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.History;

namespace TeamCircle.Data.History;

/// <summary>Walks the blocks of an agency from the first on and finds the first change or block that does not fit.</summary>
public sealed class VerifyChanges(Portal portal, SealKey key)
{
    private const int BlocksAtOnce = 200;

    /// <param name="Blocks">How many fit.</param>
    /// <param name="Changes">How many changes they hold.</param>
    /// <param name="Unsealed">Changes that wait for the next block.</param>
    /// <param name="LastHash">Of the last block that fits; kept elsewhere, it shows later that nothing was cut off.</param>
    /// <param name="Emptied">Changes of these whose contents were destroyed under a rule or at a family's request: that they were there still fits.</param>
    /// <param name="Misfit">The first that does not fit, in a sentence without names; null where all do.</param>
    public sealed record Answer(int Blocks, long Changes, long Unsealed, string? LastHash, string? Misfit, long Emptied = 0);

    /// <exception cref="StartupFailure">There are blocks and the key can't be read.</exception>
    public Task<Answer> RunAsync(int agency, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Job(agency, 0, "verifying"), db => WalkAsync(db, agency, stop), stop);

    private async Task<Answer> WalkAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var answer = new Answer(0, 0, 0, null, null);
        BlockRow? last = null;
        var secret = new Lazy<byte[]>(key.Read); // an agency without blocks needs none
        while (await NextAsync(db, agency, last, stop) is { Count: > 0 } blocks)
        {
            var found = await HashesAsync(Connection(db), agency, blocks, stop);
            foreach (var block in blocks)
            {
                if (Misfit(block, last, secret) is { } wrong)
                    return answer with { Misfit = wrong };
                if (MisfitRow(block, found) is { } row)
                    return answer with { Misfit = row };
                last = block;
                answer = answer with { Blocks = answer.Blocks + 1, Changes = answer.Changes + block.Changes, LastHash = Convert.ToHexStringLower(block.Hash) };
            }
            answer = answer with { Emptied = answer.Emptied + found.Values.Count(f => f.Destruction is not null) };
        }
        if (await DestroyedChanges.MisfitAsync(db, agency, stop) is { } beyond)
            return answer with { Misfit = beyond };
        return await UnsealedAsync(Connection(db), agency, last?.Horizon ?? 0, answer, stop);
    }

    private static Task<List<BlockRow>> NextAsync(PortalDb db, int agency, BlockRow? last, CancellationToken stop)
    {
        var from = last?.Id ?? 0;
        return db.Blocks.Where(b => b.AgencyId == agency && b.Id > from).OrderBy(b => b.Id).Take(BlocksAtOnce).ToListAsync(stop);
    }

    private static async Task<Dictionary<long, (Change Change, byte[] Hash, int? Destruction)>> HashesAsync(
        NpgsqlConnection database, int agency, List<BlockRow> blocks, CancellationToken stop)
    {
        long[] ids = [.. blocks.SelectMany(b => b.ChangeIds)];
        var found = new Dictionary<long, (Change, byte[], int?)>(ids.Length);
        await foreach (var (change, _, destruction) in ChangeRows.ReadAsync(database, agency, "c.id = any($2)", [ids], stop))
            found.Add(change.Id, (change with { Before = null, After = null }, change.Hash(), change is { Before: null, After: null } ? destruction : null));
        return found;
    }

    private string? Misfit(BlockRow block, BlockRow? last, Lazy<byte[]> secret)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"Block {block.Id} of {block.SealedAt:uuuu-MM-dd HH:mm:ss'Z'}");
        if (!block.Previous.AsSpan().SequenceEqual(last?.Hash ?? Seal.Beginning))
            return $"{name} does not follow the block before it: one between them is missing, or was altered.";
        if (!block.Hash.AsSpan().SequenceEqual(block.Seal().Hash()) || !block.Root.AsSpan().SequenceEqual(HashTree.Root(block.Hashes()))
            || block.Changes != block.ChangeIds.Length || block.Changes != block.Hashes().Count())
            return $"{name} was altered: its hash does not fit what it says.";
        return block.Code.AsSpan().SequenceEqual(Seal.Code(secret.Value, block.Hash))
            ? null
            : $"{name} was not sealed under the key in {key.Path}.";
    }

    private static string? MisfitRow(BlockRow block, Dictionary<long, (Change Change, byte[] Hash, int? Destruction)> found)
    {
        foreach (var (id, hash) in block.ChangeIds.Zip(block.Hashes()))
        {
            if (!found.TryGetValue(id, out var row))
                return string.Create(CultureInfo.InvariantCulture, $"Missing: change {id}, which block {block.Id} holds.");
            if (row.Destruction is null && !hash.AsSpan().SequenceEqual(row.Hash)) // what was destroyed has no contents to hold against its hash
                return string.Create(CultureInfo.InvariantCulture, $"Altered: {row.Change}, since block {block.Id} sealed it.");
        }
        return null;
    }

    /// <summary>Counts what no block holds yet, and finds what should have been in one, or can't have been written by the portal.</summary>
    private static async Task<Answer> UnsealedAsync(NpgsqlConnection database, int agency, long horizon, Answer answer, CancellationToken stop)
    {
        await using var next = new NpgsqlCommand("select pg_snapshot_xmax(pg_current_snapshot())::text::bigint", database);
        var notYet = (long)(await next.ExecuteScalarAsync(stop))!;
        await foreach (var (change, tx, _) in ChangeRows.ReadAsync(database, agency, ChangeRows.InNoBlock, [], stop))
        {
            if (tx < horizon || tx >= notYet)
                return answer with { Misfit = $"Added: {change}, which no block holds though later ones are sealed." };
            answer = answer with { Unsealed = answer.Unsealed + 1 };
        }
        return answer;
    }

    private static NpgsqlConnection Connection(PortalDb db) => (NpgsqlConnection)db.Database.GetDbConnection();
}
