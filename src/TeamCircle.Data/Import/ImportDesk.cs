using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Import;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Import;

/// <summary>What one import works with: its transaction, the ids behind codes and e-mails, and how many rows changed what.</summary>
internal sealed class ImportDesk(PortalDb db, int agency, string zone, LocalDate today, LocalDate rolesFrom)
{
    private readonly Dictionary<(string File, int Line), RowFate> _fates = [];
    private readonly List<FileProblem> _problems = [];
    private HashSet<(int Learner, ClosedDays Days)> _closed = [];

    public PortalDb Db => db;
    public int Agency => agency;

    /// <summary>The zone of new visits.</summary>
    public string Zone => zone;
    public LocalDate Today => today;

    /// <summary>From when a new role holds.</summary>
    public LocalDate RolesFrom => rolesFrom;
    public Dictionary<string, int> People { get; private set; } = [];
    public Dictionary<string, int> Learners { get; private set; } = [];
    public Dictionary<string, int> Services { get; private set; } = [];
    public Dictionary<string, int> Goals { get; private set; } = [];

    /// <summary>Rows written so far.</summary>
    public int Written { get; private set; }

    /// <summary>What was refused because a count is closed; the row would have changed something in it.</summary>
    public IReadOnlyList<FileProblem> Problems => _problems;

    public async Task LoadAsync(CancellationToken stop)
    {
        People = await NamesAsync(db.People.Where(r => r.AgencyId == agency).Select(r => new Name(r.Email, r.Id)), stop);
        Learners = await NamesAsync(db.Learners.Where(r => r.AgencyId == agency).Select(r => new Name(r.Code, r.JoinedTo ?? r.Id)), stop); // a joined code goes on meaning the learner
        Services = await NamesAsync(db.Services.Where(r => r.AgencyId == agency).Select(r => new Name(r.Code, r.Id)), stop);
        Goals = await NamesAsync(db.Goals.Where(r => r.AgencyId == agency).Select(r => new Name(r.Code, r.Id)), stop);
        _closed = (await (
            from c in db.LearnerPeriods
            join p in db.Periods on new { c.AgencyId, Id = c.PeriodId } equals new { p.AgencyId, p.Id }
            where c.AgencyId == agency && c.ClosedAt != null
            select new { c.LearnerId, First = c.FirstDay ?? p.StartDay, Last = c.LastDay ?? p.EndDay }).ToListAsync(stop)).Select(c => (c.LearnerId, new ClosedDays(DateRange.Of(c.First, c.Last)))).ToHashSet();
    }

    /// <summary>What it added, in batches, oldest first.</summary>
    public List<ImportAdditionRow> Additions { get; } = [];

    /// <summary>Writes what has gathered, so that new rows have ids.</summary>
    public async Task SaveAsync(CancellationToken stop)
    {
        var added = db.ChangeTracker.Entries().Where(e => e.State == EntityState.Added).Select(e => e.Entity).ToList();
        Written += await db.SaveChangesAsync(stop);
        foreach (var table in added.GroupBy(row => row.GetType()))
            Note(table.Key, table);
    }

    /// <summary>Adds many new rows at once, after everything that has gathered.</summary>
    public async Task AddAsync<T>(IReadOnlyList<T> rows, CancellationToken stop) where T : class, IAgencyRow
    {
        await SaveAsync(stop);
        foreach (var row in rows)
            row.AgencyId = agency;
        await AddRows.RunAsync(db, rows, stop);
        Written += rows.Count;
        Note(typeof(T), rows);
    }

    private void Note(Type type, IEnumerable<object> rows)
    {
        var entity = db.Model.FindEntityType(type)!;
        var key = entity.FindPrimaryKey()!.Properties.Where(p => p.Name != nameof(IAgencyRow.AgencyId)).ToList();
        string[] keys = [.. rows.Select(row => string.Join('/', key.Select(p => Convert.ToString(p.PropertyInfo!.GetValue(row), CultureInfo.InvariantCulture))))];
        if (keys.Length > 0)
            Additions.Add(new() { AgencyId = agency, TableName = entity.GetTableName()!, RowKeys = keys });
    }

    public T Add<T>(T row) where T : class, IAgencyRow
    {
        row.AgencyId = agency;
        db.Add(row);
        return row;
    }

    /// <summary>Counts a row of a file by what became of the stored rows behind it, its own first. A row that nobody tracks is new.</summary>
    public void Count(string file, int line, params ReadOnlySpan<object> rows)
    {
        var fate = RowFate.Known;
        for (var i = 0; i < rows.Length; i++)
        {
            var state = db.Entry(rows[i]).State;
            if (state is EntityState.Added or EntityState.Detached && i == 0)
                fate = RowFate.Added;
            else if (state != EntityState.Unchanged && fate == RowFate.Known)
                fate = RowFate.Changed;
        }
        // Several days of one event are one row of the file.
        _fates[(file, line)] = _fates.TryGetValue((file, line), out var other) && other > fate ? other : fate;
    }

    public int CountOf(string file, RowFate fate) => _fates.Count(f => f.Key.File == file && f.Value == fate);

    /// <summary>Refuses a row that would change a closed count.</summary>
    /// <returns>True where it is refused.</returns>
    /// <param name="facts">As they stand and as they would: their own day, null where there is none, and for a make-up the day that it names.</param>
    public bool IsClosed(string file, int line, string column, int learner, params ReadOnlySpan<(LocalDate? Day, LocalDate? Pays)> facts)
    {
        foreach (var (day, pays) in facts)
        {
            if (day is not { } date || !_closed.Any(c => c.Learner == learner && c.Days.Refuse(date, pays)))
                continue;
            _problems.Add(new(file, line, column, "The count of this reporting period is closed. The case manager restates it first."));
            return true;
        }
        return false;
    }

    /// <summary>Refuses what a row asks for.</summary>
    public void Refuse(string file, int line, string column, string why) => _problems.Add(new(file, line, column, why));

    private static async Task<Dictionary<string, int>> NamesAsync(IQueryable<Name> names, CancellationToken stop)
    {
        var known = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var name in await names.ToListAsync(stop))
            known.TryAdd(name.Text, name.Id);
        return known;
    }

    private sealed record Name(string Text, int Id);
}

/// <summary>What became of a good row of a file.</summary>
internal enum RowFate
{
    Known,
    Changed,
    Added,
}
