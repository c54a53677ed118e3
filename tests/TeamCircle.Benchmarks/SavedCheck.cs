using System.Diagnostics;
using Npgsql;

namespace TeamCircle.Benchmarks;

/// <summary>Looks, past every wall, whether what was answered as saved is there once, with its changes, and sealed.</summary>
/// <param name="ahead">How far the portal's clock, which dates seals, is ahead of the database's, which dates changes.</param>
internal sealed class SavedCheck(NpgsqlConnection owner, int agency, TimeSpan ahead)
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);
    private long _change, _block;

    private string Changes => $"from portal.changes c where c.agency_id = {agency} and c.id > {_change}";

    private string Seals => $"(select b.sealed_at, unnest(b.change_ids) as id from portal.blocks b where b.agency_id = {agency} and b.id > {_block})";

    /// <summary>What comes after this moment is looked at.</summary>
    public async Task BeginAsync()
    {
        _change = await NumberAsync($"select coalesce(max(id), 0) from portal.changes where agency_id = {agency}");
        _block = await NumberAsync($"select coalesce(max(id), 0) from portal.blocks where agency_id = {agency}");
    }

    /// <param name="saved">How many acts were answered as saved.</param>
    public async Task<string> EndAsync(int saved)
    {
        var (waited, waiting) = (Stopwatch.StartNew(), 1L);
        while (waiting > 0 && waited.Elapsed < Longest)
        {
            waiting = await NumberAsync($"select count(*) from (select c.id {Changes}) c left join {Seals} s using (id) where s.id is null");
            await Task.Delay(TimeSpan.FromMilliseconds(waiting > 0 ? 200 : 0));
        }
        var acts = await NumberAsync($"select count(distinct c.operation_id) {Changes} and c.table_name = 'sessions'");
        var entries = await NumberAsync($"select count(*) {Changes} and c.table_name = 'sessions'");
        var all = await NumberAsync($"select count(*) {Changes} and c.operation_id is not null");
        var slowest = await NumberAsync($"select coalesce(max((extract(epoch from s.sealed_at - c.at) * 1000)::bigint), 0) from (select c.id, c.at {Changes}) c join {Seals} s using (id)");
        return $"  saved {saved}, acts in the trail {acts}, entries {entries}, changes {all} ({(double)all / Math.Max(1, saved):0.00} a save); not sealed {waiting}; "
            + $"the longest from a change to its seal {slowest / 1000.0 - ahead.TotalSeconds:0.0} s";
    }

    /// <param name="query">Numbers only may be built into it.</param>
    private async Task<long> NumberAsync(string query)
    {
        await using var command = new NpgsqlCommand(query, owner) { CommandTimeout = 600 };
        return (long)(await command.ExecuteScalarAsync())!;
    }
}
