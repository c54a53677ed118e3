using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Calendar;

/// <summary>All that one operation changed in the calendar, as the trail of changes has it.</summary>
internal sealed class LastChange
{
    private static readonly string[] OfCalendar = ["visits", "series", "visit_routines", "series_routines", "handed_over"];
    private readonly List<ChangeRow> _rows;

    private LastChange(List<ChangeRow> rows) => _rows = rows;

    public Guid Operation => _rows[0].OperationId!.Value;
    public int Person => _rows[0].PersonId;
    public Instant At => _rows[0].At;

    /// <summary>How many visits it changed.</summary>
    public int Visits => _rows.Where(r => r.TableName == "visits").Select(r => r.RowKey).Distinct().Count();

    /// <summary>The last change of a visit; null where it cannot be taken back: it was no act of a person's in the calendar alone (a closure's visits are taken back with it), or
    /// something that it changed was changed again, logged for example.</summary>
    public static async Task<LastChange?> FindAsync(PortalDb db, int agency, Guid visit, CancellationToken stop)
    {
        var key = visit.ToString();
        var last = await db.Changes.AsNoTracking().Where(c => c.AgencyId == agency && c.TableName == "visits" && c.RowKey == key)
            .OrderByDescending(c => c.Id).FirstOrDefaultAsync(stop);
        if (last?.OperationId is not { } operation)
            return null;
        var rows = await db.Changes.AsNoTracking().Where(c => c.AgencyId == agency && c.Tx == last.Tx && c.OperationId == operation)
            .OrderBy(c => c.Id).ToListAsync(stop);
        var isOfJob = await db.PersonRoles.AnyAsync(r => r.AgencyId == agency && r.PersonId == last.PersonId && r.Role == Role.Terminal, stop);
        if (isOfJob || rows.Exists(r => !OfCalendar.Contains(r.TableName) || IsOfClosure(r)))
            return null;
        var change = new LastChange(rows);
        return await change.IsOvertakenAsync(db, agency, stop) ? null : change;
    }

    /// <summary>What an act that changed other things too did in the calendar; null where it changed nothing there.</summary>
    /// <param name="rows">All changes of one operation, in their order.</param>
    public static LastChange? Of(IEnumerable<ChangeRow> rows) =>
        rows.Where(r => OfCalendar.Contains(r.TableName)).ToList() is { Count: > 0 } own ? new(own) : null;

    /// <summary>JSON of the rows of a table as they stood before, each once.</summary>
    public string Before(string table) =>
        $"[{string.Join(',', _rows.Where(r => r.TableName == table && IsOld(r)).GroupBy(r => r.RowKey).Select(g => g.First().Before))}]";

    /// <summary>The keys of the rows that it added to a table.</summary>
    public string[] Added(string table) => [.. _rows.Where(r => r.TableName == table && !IsOld(r)).Select(r => r.RowKey).Distinct()];

    // What was cancelled for a closure comes back for all at once, by who looks after the calendar; a person's scope does not reach the closure's own row.
    private static bool IsOfClosure(ChangeRow row) => row.TableName == "visits" && ClosureOf(row.Before) != ClosureOf(row.After);

    private static int? ClosureOf(string? visit)
    {
        using var json = visit is null ? null : JsonDocument.Parse(visit);
        return json?.RootElement.TryGetProperty("closure_id", out var closure) == true && closure.ValueKind == JsonValueKind.Number ? closure.GetInt32() : null;
    }

    private bool IsOld(ChangeRow row) => !_rows.Exists(r => r.TableName == row.TableName && r.RowKey == row.RowKey && r.Act == "insert");

    /// <summary>Whether a visit or series that it changed was changed again.</summary>
    public Task<bool> IsOvertakenAsync(PortalDb db, int agency, CancellationToken stop)
    {
        var (last, tx) = (_rows[^1].Id, _rows[0].Tx);
        string[] visits = [.. _rows.Where(r => r.TableName == "visits").Select(r => r.RowKey).Distinct()];
        string[] series = [.. _rows.Where(r => r.TableName == "series").Select(r => r.RowKey).Distinct()];
        return db.Changes.AnyAsync(c => c.AgencyId == agency && c.Tx != tx && c.Id > last
            && ((c.TableName == "visits" && visits.Contains(c.RowKey)) || (c.TableName == "series" && series.Contains(c.RowKey))), stop);
    }
}
