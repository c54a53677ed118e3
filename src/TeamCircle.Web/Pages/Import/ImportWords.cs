using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Import;

internal static class ImportWords
{
    /// <summary>What the import did, as a heading.</summary>
    public static string Verdict(ImportResult result)
    {
        var refused = result.Files.Sum(f => f.Refused);
        return (result.Stored, result.Problems.Count > 0) switch
        {
            (true, false) => "Everything is stored",
            (true, true) => $"The good rows are stored; {Say.Number(refused)} {(refused == 1 ? "was" : "were")} refused",
            (false, false) => "Everything was known already; nothing changed",
            _ => "Nothing is stored yet",
        };
    }

    public static string Place(FileNote note) =>
        note.File + (note.Line > 0 ? $", line {note.Line}" : "") + (note.Column.Length > 0 ? $", {note.Column}" : "");
}
