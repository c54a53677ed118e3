using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Import;

/// <summary>Reads goals.</summary>
internal sealed class ReadGoals(Register register, Findings findings)
{
    public List<GoalLine> Run(RawTable table)
    {
        var good = new List<GoalLine>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            if (Read(row, reader) is not { } line)
            {
                register.Refused(FileKind.Goals, row, row.Cell("code"));
                continue;
            }
            register.Set(new GoalFact(line.Code, line.Learner, line.Measure, line.From, line.To, line.Every, line.Probes));
            good.Add(line);
        }
        return good;
    }

    private GoalLine? Read(RowCells row, TableReader reader)
    {
        var (code, learner) = (row.Text("code"), register.LearnerWithPlan(row));
        var (area, statement) = (row.Text("area"), row.Text("statement"));
        var (measure, better) = (row.Word<Measure>("measure"), row.Word<Better>("better"));
        var (baseline, target, targetDay) = (row.NumberOrNone("baseline"), row.NumberOrNone("target"), row.DayOrNone("target date"));
        var criterion = Criterion(row);
        var (probes, every) = (row.Whole("probes", 0, 1000), row.Every("every"));
        var each = Each(row);
        var owners = Owners(row);
        var (from, to) = (row.Day("from"), row.Day("to"));
        row.InOrder(from, to, "to");
        var stored = code is null ? null : register.Goal(code);
        if (stored is not null && learner is not null && !string.Equals(stored.Learner, learner.Code, StringComparison.OrdinalIgnoreCase))
            row.Refuse("learner", "This code belongs to a goal of another learner.");
        if (code is not null)
            reader.IsFirst(row, "code", "This code stands", code);
        return !row.IsGood ? null : new(
            row.File, row.Line, stored?.Code ?? code!, learner!.Code, area!, statement!, measure!.Value, better!.Value, baseline, target, targetDay,
            criterion, probes!.Value, every!.Value, each, owners, from!.Value, to!.Value);
    }

    private static (int, int)? Criterion(RowCells row)
    {
        var text = row.Cell("criterion");
        var criterion = CellText.Criterion(text);
        if (text.Length > 0 && criterion is null)
            row.Refuse("criterion", "Write the criterion as 3 of 4: on so many of the last so many days.");
        return criterion;
    }

    private static bool Each(RowCells row)
    {
        var by = row.Text("by");
        if (by is not null && !Is("each") && !Is("any"))
            row.Refuse("by", "Write each (every owner probes) or any (all owners together).");
        return Is("each");

        bool Is(string word) => string.Equals(by, word, StringComparison.OrdinalIgnoreCase);
    }

    private IReadOnlyList<string> Owners(RowCells row)
    {
        var owners = register.People(row, "owners");
        if (owners.Count == 0)
            row.Refuse("owners", "A goal needs at least one owner.");
        return owners;
    }
}
