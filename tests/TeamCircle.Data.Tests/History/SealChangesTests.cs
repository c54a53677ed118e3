using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.History;
using TeamCircle.Data.History;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Postgres;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.History;

public sealed class SealChangesTests(TestDatabase database, PgAssembly server) : IClassFixture<TestDatabase>, IAsyncLifetime
{
    private static int _agencies;
    private readonly string _folder = ScratchFolder.Make();
    private TestAgency _agency = null!;

    private SealKey Key => new(Path.Combine(_folder, "keys", "seal.key"));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => _agency = await TestAgency.CreateAsync(database, $"SEAL{Interlocked.Increment(ref _agencies)}");

    public async ValueTask DisposeAsync()
    {
        await _agency.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Every_change_is_in_one_block_and_all_fit()
    {
        await WriteAsync(3);
        await SealAllAsync();
        await WriteAsync(2);
        await SealAllAsync();

        var answer = await VerifyAsync();

        Assert.Null(answer.Misfit);
        Assert.True(answer.Blocks >= 2);
        Assert.Equal((await ChangesAsync(), 0), (answer.Changes, answer.Unsealed));
        await EachInOneBlockAsync(_agency);
    }

    [Fact]
    public async Task Nothing_to_seal_makes_no_block()
    {
        await SealAllAsync();
        var before = await VerifyAsync();

        Assert.Equal(0, await Sealer().RunAsync(_agency.Id, Stop));

        Assert.Equal(before, await VerifyAsync());
    }

    [Theory]
    [InlineData("update portal.changes set ground = 'another' where agency_id = $1 and id = $2", "Altered: change {0} ")]
    [InlineData("update portal.changes set after = after || '{\"name\": \"Another\"}' where agency_id = $1 and id = $2", "Altered: change {0} ")]
    [InlineData("update portal.changes set at = at + interval '1 microsecond' where agency_id = $1 and id = $2", "Altered: change {0} ")]
    [InlineData("delete from portal.changes where agency_id = $1 and id = $2", "Missing: change {0},")]
    [InlineData("update portal.blocks set change_ids = array_remove(change_ids, $2) where agency_id = $1 and $2 = any(change_ids)", "Block")]
    [InlineData("update portal.blocks set sealed_at = sealed_at - interval '1 day' where agency_id = $1 and $2 = any(change_ids)", "Block")]
    [InlineData("update portal.blocks set code = set_byte(code, 0, get_byte(code, 0) # 1) where agency_id = $1 and $2 = any(change_ids)", "Block")]
    [InlineData("delete from portal.blocks where agency_id = $1 and $2 = any(change_ids)", "Block")]
    public async Task What_the_owner_of_the_database_alters_is_named(string sql, string named)
    {
        await WriteAsync(2);
        await SealAllAsync();
        var id = await OneChangeAsync();
        await WriteAsync(2);
        await SealAllAsync();

        Assert.Equal(1, await AsOwnerAsync(sql, _agency.Id, id));

        Assert.StartsWith(string.Format(null, named, id), (await VerifyAsync()).Misfit, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tx")]
    [InlineData("9000000000000")]
    public async Task Change_that_the_owner_puts_in_is_named(string transaction)
    {
        await WriteAsync(2);
        await SealAllAsync();
        await AsOwnerAsync($"""
            insert into portal.changes (agency_id, at, tx, person_id, ground, table_name, row_key, act)
            select agency_id, at, {transaction}, person_id, 'put in', table_name, row_key, act from portal.changes where agency_id = $1 and id = $2
            """, _agency.Id, await OneChangeAsync());

        Assert.StartsWith("Added: change ", (await VerifyAsync()).Misfit, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Block_made_anew_without_the_key_is_named()
    {
        await WriteAsync(2);
        await SealAllAsync();
        var id = await OneChangeAsync();
        await AsOwnerAsync("update portal.changes set ground = 'another' where agency_id = $1 and id = $2", _agency.Id, id);
        var (block, leaves) = await ForgedAsync(id);

        await AsOwnerAsync("update portal.blocks set leaves = $2, root = $3, hash = $4 where agency_id = $1 and id = $5",
            _agency.Id, leaves, block.Root, block.Hash, block.Id);

        Assert.Contains("was not sealed under the key", (await VerifyAsync()).Misfit, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Row_of_a_transaction_that_ends_late_goes_into_a_later_block()
    {
        await SealAllAsync();
        var sealedBefore = (await VerifyAsync()).Changes;
        await using var early = await OpenAsync();
        await AddAsync(early);
        await using var late = await OpenAsync();
        await AddAsync(late); // a smaller id than the next one, in a younger transaction
        await AddAsync(early);
        await early.CommitAsync(Stop);
        while ((await VerifyAsync()).Changes < sealedBefore + 2) // other test classes' transactions hold the server's horizon for a moment
            await Sealer().RunAsync(_agency.Id, Stop);

        await late.CommitAsync(Stop);
        Assert.Equal(1, (await VerifyAsync()).Unsealed);
        await SealAllAsync();

        var blocks = await BlocksAsync();
        Assert.True(blocks[^1].ChangeIds[0] < blocks[^2].ChangeIds[^1]);
        Assert.Null((await VerifyAsync()).Misfit);
        await EachInOneBlockAsync(_agency);
    }

    [Fact]
    public async Task Many_sealers_at_once_while_saves_go_on_make_each_block_once()
    {
        var writing = Task.WhenAll(Enumerable.Range(0, 4).Select(_ => WriteAsync(10)));
        var sealing = Enumerable.Range(0, 6).Select(async _ =>
        {
            while (!writing.IsCompleted)
                await Sealer().RunAsync(_agency.Id, Stop);
        });
        await Task.WhenAll([writing, .. sealing]);
        await SealAllAsync();

        var answer = await VerifyAsync();
        Assert.Null(answer.Misfit);
        Assert.True(answer.Changes >= 40);
        await EachInOneBlockAsync(_agency);
    }

    [Fact]
    public async Task Restored_backup_verifies_and_sealing_goes_on_where_it_was()
    {
        await WriteAsync(2);
        await SealAllAsync();
        await WriteAsync(3); // unsealed in the backup
        var file = Path.Combine(_folder, "backup.zip");
        await new TakeBackup(_agency.Clock).RunAsync(database.ConnectionString(), file, _ => { }, Stop);
        await using var elsewhere = new TestDatabase(server);
        await elsewhere.InitializeAsync();
        await RestoreBackup.RunAsync(elsewhere.ConnectionString(), file, _ => { }, Stop);
        await using var moved = _agency.MovedTo(elsewhere);
        var before = await VerifyAsync();

        Assert.Equal(before, await new VerifyChanges(moved.Portal, Key).RunAsync(_agency.Id, Stop));

        await moved.AddAsync(Learner());
        await SealAllAsync(moved);
        await moved.AddAsync(Learner());
        await SealAllAsync(moved);
        var after = await new VerifyChanges(moved.Portal, Key).RunAsync(_agency.Id, Stop);
        Assert.Equal((null, before.Changes + before.Unsealed + 2, 0), (after.Misfit, after.Changes, after.Unsealed));
        await EachInOneBlockAsync(moved);
    }

    [Fact]
    public async Task Database_that_was_moved_by_other_means_is_refused()
    {
        await SealAllAsync();
        await AsOwnerAsync("update portal.blocks set horizon = 9000000000000 where agency_id = $1", _agency.Id);

        var refused = await Assert.ThrowsAsync<StartupFailure>(() => Sealer().RunAsync(_agency.Id, Stop));

        Assert.Contains("TeamCircle.Cli restore", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_key_or_none_seals_nothing_and_the_line_names_the_file()
    {
        await SealAllAsync();
        await WriteAsync(1);
        var waiting = (await VerifyAsync()).Unsealed;
        var other = new SealKey(Path.Combine(_folder, "other.key"));

        var missing = await Assert.ThrowsAsync<StartupFailure>(() => new SealChanges(_agency.Portal, _agency.Clock, other).RunAsync(_agency.Id, Stop));
        other.ReadOrMake();
        var wrong = await Assert.ThrowsAsync<StartupFailure>(() => new SealChanges(_agency.Portal, _agency.Clock, other).RunAsync(_agency.Id, Stop));

        Assert.Contains(other.Path, missing.Message, StringComparison.Ordinal);
        Assert.Contains(other.Path, wrong.Message, StringComparison.Ordinal);
        Assert.Equal(waiting, (await VerifyAsync()).Unsealed);
    }

    [Fact]
    public async Task Key_is_made_once_for_its_owner_alone()
    {
        for (var round = 0; round < 50; round++)
        {
            var path = Path.Combine(_folder, $"new{round}", "seal.key");
            using var together = new Barrier(8);

            var keys = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Factory.StartNew(() =>
            {
                together.SignalAndWait(Stop);
                return Convert.ToHexString(new SealKey(path).ReadOrMake());
            }, Stop, TaskCreationOptions.LongRunning, TaskScheduler.Default)));

            Assert.Single(keys.Distinct());
            Assert.Equal([path], Directory.GetFiles(Path.GetDirectoryName(path)!));
            if (!OperatingSystem.IsWindows())
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        }
    }

    private static LearnerRow Learner() => new() { Code = Guid.CreateVersion7().ToString("N")[8..], Name = "Wren Belmares", MostMinutesADay = 90 };

    private SealChanges Sealer(TestAgency? agency = null) => new((agency ?? _agency).Portal, _agency.Clock, Key);

    private Task<VerifyChanges.Answer> VerifyAsync() => new VerifyChanges(_agency.Portal, Key).RunAsync(_agency.Id, Stop);

    // Other test classes write on the same server: their running transactions make a sealer wait, as they should.
    private async Task SealAllAsync(TestAgency? agency = null)
    {
        do
            await Sealer(agency).RunAsync(_agency.Id, Stop);
        while ((await new VerifyChanges((agency ?? _agency).Portal, Key).RunAsync(_agency.Id, Stop)) is { Unsealed: > 0, Misfit: null });
    }

    private async Task WriteAsync(int learners)
    {
        for (var i = 0; i < learners; i++)
            await _agency.AddAsync(Learner());
    }

    private Task<PortalWork> OpenAsync() => _agency.Portal.OpenAsync(_agency.WholeAgency, IsolationLevel.ReadCommitted, null, Stop);

    private async Task AddAsync(PortalWork work)
    {
        var row = Learner();
        row.AgencyId = _agency.Id;
        work.Db.Add(row);
        await work.Db.SaveChangesAsync(Stop);
    }

    private Task<int> ChangesAsync() => _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Changes.CountAsync(c => c.AgencyId == _agency.Id, Stop), Stop);

    private Task<long> OneChangeAsync() => _agency.Portal.ReadAsync(
        _agency.WholeAgency, db => db.Changes.Where(c => c.AgencyId == _agency.Id && c.TableName == "learners").Select(c => c.Id).FirstAsync(Stop), Stop);

    private Task<List<BlockRow>> BlocksAsync() => _agency.Portal.ReadAsync(
        _agency.WholeAgency, db => db.Blocks.Where(b => b.AgencyId == _agency.Id).OrderBy(b => b.Id).ToListAsync(Stop), Stop);

    private static async Task EachInOneBlockAsync(TestAgency agency)
    {
        var sealedIds = (await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Blocks.Select(b => b.ChangeIds).ToListAsync(Stop), Stop)).SelectMany(i => i).Order();
        var ids = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.Select(c => c.Id).OrderBy(i => i).ToListAsync(Stop), Stop);
        Assert.Equal(ids, sealedIds);
    }

    /// <summary>The block of a change, worked out again from the rows as they stand, by somebody who knows everything but the key.</summary>
    private async Task<(BlockRow Block, byte[] Leaves)> ForgedAsync(long id)
    {
        var block = (await BlocksAsync()).Single(b => b.ChangeIds.Contains(id));
        var rows = await _agency.Portal.ReadAsync(_agency.WholeAgency, db => db.Changes.Where(c => block.ChangeIds.Contains(c.Id)).OrderBy(c => c.Id).ToListAsync(Stop), Stop);
        byte[][] hashes = [.. rows.Select(r => new Change(
            r.AgencyId, r.Id, r.At, r.PersonId, r.Ground, r.OperationId, r.LearnerId, r.TableName, r.RowKey, r.Act, r.Before, r.After).Hash())];
        block.Root = HashTree.Root(hashes);
        block.Hash = new Seal(block.AgencyId, block.SealedAt, block.Changes, block.Root, block.Previous).Hash();
        return (block, [.. hashes.SelectMany(h => h)]);
    }

    private async Task<int> AsOwnerAsync(string sql, params object[] values)
    {
        await using var bare = new NpgsqlConnection(database.ConnectionString() + ";Pooling=false");
        await bare.OpenAsync(Stop);
        await using var command = new NpgsqlCommand(sql, bare);
        foreach (var value in values)
            command.Parameters.Add(new() { Value = value });
        return await command.ExecuteNonQueryAsync(Stop);
    }
}
