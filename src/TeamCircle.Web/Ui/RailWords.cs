using NodaTime;

namespace TeamCircle.Web.Ui;

/// <summary>The minute rail in words, for a screen reader: what is as it should be is counted, the rest is named.</summary>
public static class RailWords
{
    public static string Of(Rail rail)
    {
        if (rail.Cells.Count == 0)
            return "Nothing is due in this reporting period.";
        var plain = rail.Cells.Count(c => IsPlain(c) && !c.IsLater(rail.Today));
        List<string> sentences = [];
        if (plain > 0)
            sentences.Add($"{plain} of {Say.Count(rail.Cells.Count, "window")} given in full.");
        sentences.AddRange(rail.Cells.Where(c => !IsPlain(c) && !c.IsLater(rail.Today)).Select(c => Sentence(c, rail)));
        var later = rail.Cells.Where(c => c.IsLater(rail.Today) && c.Owed > 0).ToList();
        if (later.Count > 0)
            sentences.Add(Later(later));
        return string.Join(' ', sentences);
    }

    private static bool IsPlain(RailCell cell) => cell is { Open: 0, NotOwed: 0, Paid: 0, Owed: > 0 };

    private static string Sentence(RailCell cell, Rail rail)
    {
        if (cell is { Owed: 0, Given: 0 })
            return $"{Say.Begin(cell.Name)}: nothing due.";
        var words = $"{Say.Begin(cell.Name)}: {Say.Number(cell.Given)} of {Say.Number(cell.Owed)} {rail.Unit} given";
        if (cell.Open > 0 && cell.Last >= rail.Today)
            words += " so far";
        if (cell.Paid > 0)
            words += $", {Say.Number(cell.Paid)} of them by make-up visits";
        if (cell.NotOwed > 0)
            words += $", {Say.Number(cell.NotOwed)} decided not owed";
        if (cell.IsPlanned)
            words += ", the rest is planned";
        return words + ".";
    }

    private static string Later(List<RailCell> later)
    {
        var planned = later.Count(c => c.IsPlanned || c.Open == 0);
        var rest = planned == later.Count ? "all planned" : planned == 0 ? "none planned in full" : $"{planned} planned in full";
        return $"{later.Count} to come, {rest}.";
    }
}
