using Microsoft.EntityFrameworkCore;
using Npgsql;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;

namespace TeamCircle.Data.Rights;

/// <summary>One kind of entry in a copy of a record: every row, also those that were taken back.</summary>
/// <param name="Table">As the database calls it.</param>
/// <param name="Heads">As the database calls the columns, in words.</param>
/// <param name="Rows">Text; empty where there is none. People, services, goals, routines and visits stand by name, code or day.</param>
public sealed record CopySheet(string Table, IReadOnlyList<string> Heads, IReadOnlyList<IReadOnlyList<string>> Rows);

/// <param name="Pictures">JPEG, in the order of their sheet.</param>
public sealed record RecordCopy(string Learner, string Agency, LocalDateTime MadeAt, string MadeBy, IReadOnlyList<CopySheet> Sheets, IReadOnlyList<byte[]> Pictures);

/// <summary>
/// Reads the whole record of one learner, as it stands at one moment: every column whose class makes it part of a record
/// (<see cref="DataClasses"/>), so that a table that comes later can't be forgotten.
/// </summary>
public sealed class ReadCopy(Portal portal, TimeProvider clock)
{
    private const string Pictures = "routine_pictures";

    /// <summary>What a number stands for, as SQL about the row <c>t</c>.</summary>
    private static readonly Dictionary<string, string> Names = new()
    {
        ["service_id"] = "(select x.code from portal.services x where x.agency_id = t.agency_id and x.id = t.service_id)",
        ["goal_id"] = "(select x.code from portal.goals x where x.agency_id = t.agency_id and x.id = t.goal_id)",
        ["routine_id"] = "(select x.name from portal.routines x where x.agency_id = t.agency_id and x.id = t.routine_id)",
        ["place_id"] = "(select x.name from portal.places x where x.agency_id = t.agency_id and x.id = t.place_id)",
        ["period_id"] = "(select x.name from portal.periods x where x.agency_id = t.agency_id and x.id = t.period_id)",
        ["visit_id"] = "(select x.on_day || ' ' || x.start_time from portal.visits x where x.agency_id = t.agency_id and x.id = t.visit_id)",
        ["plan_id"] = "(select x.start_day || ' to ' || x.end_day from portal.plans x where x.agency_id = t.agency_id and x.id = t.plan_id)",
    };

    private static string Person(string column) => $"(select x.name from portal.people x where x.agency_id = t.agency_id and x.id = t.{column})";

    /// <summary>Null for whoever does not keep the learner's requests.</summary>
    public async Task<RecordCopy?> RunAsync(Caller caller, int learner, CancellationToken stop = default) =>
        !RequestRules.MayKeep(caller, learner) ? null : await portal.ReadAsync(Scope.OfLearner(caller, learner), async db =>
        {
            var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.LegalName ?? l.Name).SingleAsync(stop);
            var agency = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => new { a.Name, a.TimeZone }).SingleAsync(stop);
            var database = (NpgsqlConnection)db.Database.GetDbConnection();
            var people = await PeopleAsync(database, stop);
            var sheets = new List<CopySheet>();
            foreach (var table in DataClasses.All.GroupBy(c => c.Table).Where(IsOfLearner))
                sheets.Add(await SheetAsync(database, caller.AgencyId, learner, agency.TimeZone, table, people, stop));
            return new RecordCopy(name, agency.Name, Instant.FromDateTimeOffset(clock.GetUtcNow()).InZone(DateTimeZoneProviders.Tzdb[agency.TimeZone]).LocalDateTime, caller.Name,
                [.. sheets.Where(s => s.Rows.Count > 0)], await PicturesAsync(database, caller.AgencyId, learner, stop));
        }, stop);

    /// <summary>Whether a table holds entries of one learner's record.</summary>
    public static bool IsOfLearner(IEnumerable<DataColumn> table)
    {
        var columns = table.ToList();
        return columns.Exists(c => DataClasses.IsOfRecord(c.Class)) && (columns[0].Table == "portal.learners" || columns.Exists(c => c.Column == "learner_id"));
    }

    private static async Task<CopySheet> SheetAsync(
        NpgsqlConnection database, int agency, int learner, string zone, IGrouping<string, DataColumn> table, HashSet<string> people, CancellationToken stop)
    {
        var name = table.Key["portal.".Length..];
        List<string> columns = [.. table.Where(c => DataClasses.IsOfRecord(c.Class) && !(name == Pictures && c.Column == "jpeg")).OrderBy(c => Rank(c, name, people)).Select(c => c.Column)];
        var values = columns.Select(c => people.Contains($"{name}.{c}") ? Person(c) : Names.GetValueOrDefault(c) ?? $"t.{c}");
        // The names come from data-classes.csv, which is ours; a test holds it against the database.
        await using var command = new NpgsqlCommand(
            $"select set_config('timezone', $3, true), {string.Join(", ", values.Select(v => $"coalesce({v}::text, '')"))} from {table.Key} t where t.agency_id = $1 and t.{(name == "learners" ? "id" : "learner_id")} = $2 order by t.{columns.Find(IsDay) ?? columns[0]}", database)
        {
            Parameters = { new() { Value = agency }, new() { Value = learner }, new() { Value = zone } },
        };
        await using var reader = await command.ExecuteReaderAsync(stop);
        var rows = new List<IReadOnlyList<string>>();
        while (await reader.ReadAsync(stop))
            rows.Add([.. Enumerable.Range(1, columns.Count).Select(reader.GetString)]);
        return new(name, [.. columns.Select(c => c.EndsWith("_id", StringComparison.Ordinal) ? c[..^3].Replace('_', ' ') : c.Replace('_', ' '))], rows);
    }

    /// <summary>Names and days stand first, then times, who and what; then figures, then words; whether it stands, last.</summary>
    private static int Rank(DataColumn column, string table, HashSet<string> people) => column switch
    {
        { Class: DataClass.Name } => 0,
        { Column: "live" or "taken_back_reason" } => 7,
        { Column: "on_day" or "from_day" or "first_day" or "start_day" or "kind" or "code" } => 1,
        { Column: "start_time" or "end_time" or "to_day" or "last_day" or "end_day" or "until_day" } => 2,
        { Column: var name } when Names.ContainsKey(name) || (people.Contains($"{table}.{name}") && name.EndsWith("_id", StringComparison.Ordinal)) => 3,
        { Class: DataClass.Record } when !people.Contains($"{table}.{column.Column}") && !column.Column.EndsWith("_at", StringComparison.Ordinal) => 4,
        { Class: DataClass.Record } => 6,
        _ => 5,
    };

    private static bool IsDay(string column) => column is "on_day" or "from_day" or "first_day" || column.EndsWith("_on", StringComparison.Ordinal);

    /// <summary>Columns that name a person: table and column.</summary>
    private static async Task<HashSet<string>> PeopleAsync(NpgsqlConnection database, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(
            """
            select c.relname || '.' || a.attname from pg_constraint f join pg_class c on c.oid = f.conrelid
            join pg_attribute a on a.attrelid = f.conrelid and a.attnum = f.conkey[array_length(f.conkey, 1)]
            where f.contype = 'f' and f.confrelid = 'portal.people'::regclass
            union
            select c.relname || '.' || a.attname from pg_class c join pg_attribute a on a.attrelid = c.oid
            where c.relnamespace = 'portal'::regnamespace and c.relkind = 'r' and a.atttypid = 'int'::regtype and a.attname like '%\_by'
            """, database);
        await using var reader = await command.ExecuteReaderAsync(stop);
        var found = new HashSet<string>();
        while (await reader.ReadAsync(stop))
            found.Add(reader.GetString(0));
        return found;
    }

    private static async Task<IReadOnlyList<byte[]>> PicturesAsync(NpgsqlConnection database, int agency, int learner, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand("select t.jpeg from portal.routine_pictures t where t.agency_id = $1 and t.learner_id = $2 order by t.id", database)
        {
            Parameters = { new() { Value = agency }, new() { Value = learner } },
        };
        await using var reader = await command.ExecuteReaderAsync(stop);
        var found = new List<byte[]>();
        while (await reader.ReadAsync(stop))
            found.Add(reader.GetFieldValue<byte[]>(0));
        return found;
    }
}
