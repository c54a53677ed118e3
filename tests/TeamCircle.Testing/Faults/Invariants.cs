using System.Globalization;
using System.Text.Json;
using Npgsql;
using TeamCircle.Core.Practice;
using TeamCircle.Data.Devices;

namespace TeamCircle.Testing.Faults;

/// <summary>
/// Holds a database to what its clients know: INV1 to INV8 of docs/reliability.md, asked over plain SQL by a role that sees past every wall, so that it
/// serves after a crash, a restore or an upgrade alike.
/// </summary>
/// <param name="connectionString">Of a superuser. The connection is opened for each look and closed again.</param>
/// <param name="people">Whose acts these are; nobody else's are looked at where an act has a person.</param>
public sealed class Invariants(string connectionString, int agency, IReadOnlyCollection<int> people)
{
    private static readonly string[] Kept = ["practices", "trials", "probes", "sessions", "visits", "set_asides"];

    /// <summary>After a fault, before anything is sent again: INV1, INV2, INV3, INV5, INV6 and INV8.</summary>
    public Task<Found> LookAsync(SentActs acts) => LookAsync(acts, isTheEnd: false);

    /// <summary>At the end, after everything was sent once more: INV4 and INV7 too.</summary>
    public Task<Found> LookAtTheEndAsync(SentActs acts) => LookAsync(acts, isTheEnd: true);

    private async Task<Found> LookAsync(SentActs acts, bool isTheEnd)
    {
        await using var database = new NpgsqlConnection(connectionString + ";Pooling=false");
        await database.OpenAsync();
        await using var snapshot = await database.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead);
        var (stored, aside) = await EndsAsync(database);
        List<string> broken = [.. Lost(acts, stored, aside), .. Invented(acts, stored, aside), .. isTheEnd ? Converged(acts, stored, aside) : []];
        var rows = await RowsAsync(database);
        broken.AddRange(await AskAsync(database, "INV3", Doubled));
        broken.AddRange(await AskAsync(database, "INV3", Halved));
        broken.AddRange(Altered(acts, rows));
        foreach (var table in Kept)
            broken.AddRange(await AskAsync(database, "INV6", Untold(table)));
        if (isTheEnd)
            broken.AddRange(Miscounted(acts, stored, rows));
        broken.AddRange(await AskAsync(database, "INV8", SlippedIn));
        return new(stored, aside, ["INV1", "INV2", "INV3", .. isTheEnd ? ["INV4"] : Array.Empty<string>(), "INV5", "INV6", .. isTheEnd ? ["INV7"] : Array.Empty<string>(), "INV8"], broken);
    }

    private static IEnumerable<string> Lost(SentActs acts, HashSet<Guid> stored, HashSet<Guid> aside) =>
        acts.Acknowledged.Where(k => !(k.Value == OperationEnd.Stored ? stored : aside).Contains(k.Key)).Select(k => $"INV1: {k.Key} was acknowledged as {k.Value} and is not there.");

    private static IEnumerable<string> Invented(SentActs acts, HashSet<Guid> stored, HashSet<Guid> aside)
    {
        var (acknowledged, unknown) = (acts.Acknowledged, acts.Unknown);
        return stored.Concat(aside).Where(id => !acknowledged.ContainsKey(id) && !unknown.Contains(id)).Select(id => $"INV2: {id} is there, and nobody sent it or was told of it.");
    }

    private static IEnumerable<string> Converged(SentActs acts, HashSet<Guid> stored, HashSet<Guid> aside)
    {
        var (there, refused) = (stored.Concat(aside).ToHashSet(), acts.Refused);
        if (!there.SetEquals(acts.Attempted.Keys.Where(id => !refused.Contains(id))) || !there.SetEquals(acts.Acknowledged.Keys))
            yield return $"INV4: {acts.Attempted.Count} attempted, {refused.Count} refused, {acts.Acknowledged.Count} acknowledged, and {there.Count} are there.";
    }

    private async Task<(HashSet<Guid> Stored, HashSet<Guid> Aside)> EndsAsync(NpgsqlConnection database)
    {
        await using var command = Command(database, "select id, state from portal.operations where agency_id = $1 and person_id = any ($2) and name in ('RecordPractice', 'AddProbe', 'LogSession')");
        await using var reader = await command.ExecuteReaderAsync();
        var (stored, aside) = (new HashSet<Guid>(), new HashSet<Guid>());
        while (await reader.ReadAsync())
            (reader.GetString(1) == nameof(OperationState.Stored) ? stored : aside).Add(reader.GetGuid(0));
        return (stored, aside);
    }

    /// <summary>The row that each act wrote, as it stands.</summary>
    private async Task<Dictionary<Guid, (string Table, JsonElement Row)>> RowsAsync(NpgsqlConnection database)
    {
        var rows = new Dictionary<Guid, (string, JsonElement)>();
        foreach (var table in new[] { "practices", "probes", "sessions", "set_asides" })
        {
            await using var command = Command(database, $"""
                select c.operation_id, to_jsonb(t)::text from portal.changes c join portal.{table} t on t.agency_id = c.agency_id and t.id::text = c.row_key
                where c.agency_id = $1 and c.person_id = any ($2) and c.act = 'insert' and c.table_name = '{table}' and c.operation_id is not null
                """);
            await using var reader = await command.ExecuteReaderAsync();
            while (await reader.ReadAsync())
                rows[reader.GetGuid(0)] = (table, JsonDocument.Parse(reader.GetString(1)).RootElement.Clone());
        }
        return rows;
    }

    private static IEnumerable<string> Altered(SentActs acts, Dictionary<Guid, (string Table, JsonElement Row)> rows) =>
        from act in acts.Attempted
        where rows.TryGetValue(act.Key, out var kept) && !SaysWhatWasSent(act.Value.GetProperty("body"), kept.Table, kept.Row)
        select $"INV5: what is kept of {act.Key} in {rows[act.Key].Table} is not what was sent.";

    private static bool SaysWhatWasSent(JsonElement body, string table, JsonElement row) => table switch
    {
        "practices" => PracticeJson.Write(PracticeJson.Read(body.GetRawText())) == PracticeJson.Write(PracticeJson.Read(row.GetProperty("record").GetRawText())),
        "probes" => body.GetProperty("value").GetDecimal() == row.GetProperty("value").GetDecimal() && Same(body, "onDay", row, "on_day"),
        "sessions" => Same(body, "onDay", row, "on_day") && MinutesOf(body) == MinutesOf(row),
        _ => body.GetRawText() == row.GetProperty("body").GetString(),
    };

    private static bool Same(JsonElement body, string sent, JsonElement row, string kept) => body.GetProperty(sent).GetString() == row.GetProperty(kept).GetString();

    private static int MinutesOf(JsonElement visit)
    {
        var (start, end) = visit.TryGetProperty("start", out var sent) ? (sent, visit.GetProperty("end")) : (visit.GetProperty("start_time"), visit.GetProperty("end_time"));
        return (int)(TimeOnly.Parse(end.GetString()!, CultureInfo.InvariantCulture) - TimeOnly.Parse(start.GetString()!, CultureInfo.InvariantCulture)).TotalMinutes;
    }

    /// <summary>The minutes that the portal credits are the minutes of the visits that were sent and stored.</summary>
    private static IEnumerable<string> Miscounted(SentActs acts, HashSet<Guid> stored, Dictionary<Guid, (string Table, JsonElement Row)> rows)
    {
        var sent = acts.Attempted.Where(a => a.Value.GetProperty("kind").GetString() == "visit" && stored.Contains(a.Key)).Sum(a => MinutesOf(a.Value.GetProperty("body")));
        var credited = rows.Values.Where(r => r.Table == "sessions").Sum(r => r.Row.GetProperty("credited").GetInt32());
        if (sent != credited)
            yield return $"INV7: {sent} minutes were sent and stored, and {credited} are credited.";
    }

    private async Task<List<string>> AskAsync(NpgsqlConnection database, string invariant, string sql)
    {
        await using var command = Command(database, sql);
        await using var reader = await command.ExecuteReaderAsync();
        var found = new List<string>();
        while (await reader.ReadAsync())
            found.Add($"{invariant}: {reader.GetString(0)}");
        return found;
    }

    private NpgsqlCommand Command(NpgsqlConnection database, string sql) =>
        new(sql, database) { CommandTimeout = 0, Parameters = { new() { Value = agency }, new() { Value = people.ToArray() } } };

    private const string Doubled = """
        select c.operation_id || ' wrote ' || count(*) || ' rows of ' || c.table_name from portal.changes c
        where c.agency_id = $1 and c.person_id = any ($2) and c.act = 'insert' and c.operation_id is not null
            and c.table_name in ('practices', 'probes', 'sessions', 'visits', 'set_asides')
        group by c.operation_id, c.table_name having count(*) > 1
        """;

    private const string Halved = """
        select o.id || ' is ' || o.state || ' and lacks a row of its own' from portal.operations o
        where o.agency_id = $1 and o.person_id = any ($2) and o.name in ('RecordPractice', 'AddProbe', 'LogSession') and not exists (
            select from portal.changes c where c.agency_id = o.agency_id and c.operation_id = o.id and c.act = 'insert' and c.table_name = case
                when o.state = 'SetAside' then 'set_asides' when o.name = 'RecordPractice' then 'practices' when o.name = 'AddProbe' then 'probes' else 'sessions' end)
        union all
        select p.id || ' has not all of its trials' from portal.practices p
        where p.agency_id = $1 and p.provider_id = any ($2)
            and jsonb_array_length(p.record -> 'trials') <> (select count(*) from portal.trials t where t.agency_id = p.agency_id and t.practice_id = p.id)
        """;

    /// <summary>Each row has one change that tells of its making, in the words of an operation that is there, and no such change is without its row.</summary>
    private static string Untold(string table) => $"""
        select coalesce(t.id::text, c.row_key) || ' of {table}: ' || coalesce(c.told, 0) || ' changes tell of it' || case when t.id is null then ', and it is not there' else '' end
        from (select id from portal.{table} where agency_id = $1) t
        full join (select row_key, count(*) as told, bool_and(operation_id is null or exists (
                       select from portal.operations o where o.agency_id = $1 and o.id = c.operation_id)) as named
                   from portal.changes c where agency_id = $1 and cardinality($2) >= 0 and table_name = '{table}' and act = 'insert' group by row_key) c
            on c.row_key = t.id::text
        where t.id is null or c.told is distinct from 1 or not c.named
        """;

    private const string SlippedIn = """
        select c.table_name || ' ' || c.row_key || ' came into a count that was closed' from portal.changes c
        join portal.learner_periods l on l.agency_id = c.agency_id and l.learner_id = c.learner_id and l.closed_at is not null
        where c.agency_id = $1 and c.person_id = any ($2) and c.table_name in ('sessions', 'probes') and c.at > l.closed_at
            and (c.after ->> 'on_day')::date between l.first_day and l.last_day
        """;
}
