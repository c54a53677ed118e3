using TeamCircle.Core.Import;
using TeamCircle.Data.Import;

namespace TeamCircle.Cli.Import;

/// <summary>Prints what an import did as tables on standard output: refused rows first, then what to check, then the counts.</summary>
internal static class ImportReport
{
    public static void Write(ImportResult result)
    {
        Write(result.Problems);
        Write(result.Notes);
        foreach (var closure in result.ClosuresFromEvents)
            Console.WriteLine($"closure  {closure.Date:uuuu-MM-dd}  {closure.Name}");
        Table([["file", "rows", "new", "changed", "known", "refused"], .. result.Files.Select(f =>
            new[] { f.File, $"{f.Rows}", $"{f.Added}", $"{f.Changed}", $"{f.Known}", $"{f.Refused}" })]);
        Console.WriteLine(Verdict(result));
    }

    public static void Write(IReadOnlyList<FileNote> notes)
    {
        foreach (var note in notes)
            Console.WriteLine($"check  {note.File}{(note.Line > 0 ? $" line {note.Line}" : "")}{(note.Column.Length > 0 ? $", {note.Column}" : "")}: {note.Text}");
    }

    /// <returns>The exit code for refused rows.</returns>
    public static int Write(IReadOnlyList<FileProblem> problems)
    {
        if (problems.Count > 0)
            Table([["file", "line", "column", "reason"], .. problems.Select(p => new[] { p.File, $"{p.Line}", p.Column, p.Reason })]);
        return 1;
    }

    private static string Verdict(ImportResult result)
    {
        var refused = result.Files.Sum(f => f.Refused);
        if (result.Problems.Count > 0 && !result.Stored && result.Files.All(f => f.Known == 0))
            return "Nothing was stored. Mend the rows above, or store the good ones with --good-rows.";
        if (!result.Stored)
            return $"{(refused > 0 ? "All good rows were" : "Everything was")} known already; nothing changed in {result.AgencyCode}.";
        return refused > 0
            ? $"The good rows are stored in {result.AgencyCode}; {refused} were refused."
            : $"Everything is stored in {result.AgencyCode}.";
    }

    private static void Table(IReadOnlyList<string[]> rows)
    {
        int[] widths = [.. Enumerable.Range(0, rows[0].Length).Select(i => rows.Max(r => r[i].Length))];
        foreach (var row in rows)
            Console.WriteLine(string.Join("  ", row.Select((cell, i) => i == row.Length - 1 ? cell : cell.PadRight(widths[i]))).TrimEnd());
        Console.WriteLine();
    }
}
