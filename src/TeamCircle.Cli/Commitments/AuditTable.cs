using System.Globalization;
using TeamCircle.Core.Commitments;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Cli.Commitments;

/// <summary>Prints an audit as a table for a terminal: one row a line, the four figures, then the status in words.</summary>
internal static class AuditTable
{
    private static readonly string[] Heads =
        ["learner", "service or goal", "provider", "due so far", "given so far", "planned to come", "still to plan", "status"];

    public static void Write(TextWriter output, Audit audit)
    {
        output.WriteLine($"{audit.Period.Name}, as of {audit.AsOf:uuuu-MM-dd}");
        string[][] rows = [Heads, .. audit.Lines.Select(line => Cells(audit, line))];
        var widths = Enumerable.Range(0, Heads.Length).Select(column => rows.Max(row => row[column].Length)).ToArray();
        foreach (var row in rows)
            output.WriteLine(string.Join("  ", row.Select((cell, column) => Pad(cell, widths[column], column is >= 3 and <= 6))).TrimEnd());
    }

    private static string[] Cells(Audit audit, AuditLine line)
    {
        var sums = line.Balance.Minutes;
        var providers = audit.ProviderEmails(line.Line);
        return
        [
            audit.Names.Learners[line.Line.LearnerId].Code, line.Line.Code, providers.Length == 0 ? "nobody assigned" : providers,
            Text(sums.DueSoFar), Text(sums.GivenSoFar), Text(sums.PlannedToCome), Text(sums.StillToPlan), StatusWords.Of(line.Balance.Status),
        ];
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Pad(string cell, int width, bool isNumber) => isNumber ? cell.PadLeft(width) : cell.PadRight(width);
}
