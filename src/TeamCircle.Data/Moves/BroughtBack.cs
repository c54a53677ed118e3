using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Moves;

/// <summary>Takes back all that one act did to dated rows and to the calendar, as the trail of changes has it: what it added is taken back, what it ended stands again.</summary>
internal static class BroughtBack
{
    /// <summary>Of each table what such an act changes in rows that stood before, and what ends a row that it added.</summary>
    private static readonly Dictionary<string, (string Restored, string? Ended)> Tables = new()
    {
        ["assignments"] = ("live = b.live, taken_back_reason = b.taken_back_reason", "live = false, taken_back_reason = {2}"),
        ["goal_owners"] = ("live = b.live, taken_back_reason = b.taken_back_reason", "live = false, taken_back_reason = {2}"),
        ["relations"] = ("live = b.live, taken_back_reason = b.taken_back_reason", "live = false, taken_back_reason = {2}"),
        ["things"] = ("owner_id = b.owner_id", null),
        ["person_roles"] = ("to_day = b.to_day", null),
        ["services"] = ("to_day = b.to_day, end_reason = b.end_reason, live = b.live, taken_back_reason = b.taken_back_reason", null),
        ["goals"] = ("to_day = b.to_day, live = b.live, taken_back_reason = b.taken_back_reason", null),
    };

    /// <summary>Null where all of it is taken back; a problem, and nothing done, where something of it was changed again.</summary>
    public static async Task<Problem?> RunAsync(PortalDb db, int agency, Guid operation, string reason, CancellationToken stop)
    {
        var rows = await db.Changes.AsNoTracking().Where(c => c.AgencyId == agency && c.OperationId == operation).OrderBy(c => c.Id).ToListAsync(stop);
        if (rows.Count == 0)
            return null;
        var calendar = LastChange.Of(rows);
        if (await IsOvertakenAsync(db, agency, rows, stop) || (calendar is not null && await calendar.IsOvertakenAsync(db, agency, stop)))
            return new("", "Something of it was changed since, so it can't be undone as a whole. Change what is to be otherwise by itself.");
        if (calendar is not null)
            await UndoChange.TakeBackAsync(db, agency, calendar, stop);
        foreach (var (table, (restored, ended)) in Tables)
        {
            var own = rows.Where(r => r.TableName == table).ToList();
            if (own.Count == 0)
                continue; // a person may not even name some of these tables in an update
            var added = own.Where(r => r.Act == "insert").Select(r => int.Parse(r.RowKey, CultureInfo.InvariantCulture)).ToArray();
            // The names of tables and columns stand in this file; what was typed goes by parameters.
            var (end, restore) = ($"update portal.{table} set {ended} where agency_id = {{0}} and id = any ({{1}})",
                $"update portal.{table} t set {restored} from jsonb_populate_recordset(null::portal.{table}, {{1}}::jsonb) b where t.agency_id = {{0}} and b.agency_id = {{0}} and t.id = b.id");
            if (ended is not null && added.Length > 0)
                await db.Database.ExecuteSqlRawAsync(end, [agency, added, reason], stop);
            var before = own.GroupBy(r => r.RowKey).Select(g => g.First()).Where(r => r.Act == "update").Select(r => r.Before);
            await db.Database.ExecuteSqlRawAsync(restore, [agency, $"[{string.Join(',', before)}]"], stop);
        }
        return null;
    }

    private static async Task<bool> IsOvertakenAsync(PortalDb db, int agency, List<ChangeRow> rows, CancellationToken stop)
    {
        var (last, tx, tables) = (rows[^1].Id, rows[0].Tx, Tables.Keys.ToArray());
        var own = rows.Where(r => tables.Contains(r.TableName)).Select(r => (r.TableName, r.RowKey)).ToHashSet();
        string[] keys = [.. own.Select(o => o.RowKey).Distinct()];
        var later = await db.Changes.AsNoTracking()
            .Where(c => c.AgencyId == agency && c.Id > last && c.Tx != tx && tables.Contains(c.TableName) && keys.Contains(c.RowKey))
            .Select(c => new { c.TableName, c.RowKey }).ToListAsync(stop);
        return later.Exists(c => own.Contains((c.TableName, c.RowKey)));
    }
}
