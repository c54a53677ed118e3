using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>Counts the rows of each file by what became of them.</summary>
internal static class ImportCounts
{
    public static List<FileCount> Of(IReadOnlyList<BroughtFile> files, Brought brought, FolderReading reading, ImportDesk? desk)
    {
        var refused = reading.Problems.Where(p => p.Line > 0).GroupBy(p => p.File).ToDictionary(g => g.Key, g => g.Select(p => p.Line).Distinct().Count());
        return [.. files.OrderBy(f => f.Kind).Select(file => Of(file, Rows(file, brought), refused.GetValueOrDefault(file.Name), desk))];
    }

    private static FileCount Of(BroughtFile file, int rows, int refused, ImportDesk? desk) => new(
        file.Name, ImportFolder.Hash(file), rows,
        desk?.CountOf(file.Name, RowFate.Added) ?? 0, desk?.CountOf(file.Name, RowFate.Changed) ?? 0, desk?.CountOf(file.Name, RowFate.Known) ?? 0, refused);

    private static int Rows(BroughtFile file, Brought brought) => file.Kind switch
    {
        FileKind.Agency => 1,
        FileKind.ClosureEvents => brought.Calendars.Where(c => c.File == file.Name).Sum(c => c.Events.Count),
        _ => brought.Tables.Where(t => t.File == file.Name).Sum(t => t.Rows.Count),
    };
}
