using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Import;
using TeamCircle.Data.Road;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Road;

/// <summary>Answers with a month on the road as a file: one line a way, codes only.</summary>
public sealed class RoadFile(RoadMonth month, SheetKind kind) : SheetFile(kind)
{
    private static readonly YearMonthPattern Iso = YearMonthPattern.Iso;

    protected override string Name => $"road-{Iso.Format(month.Month)}";

    protected override string Sheet => "Road";

    protected override IReadOnlyList<string> Heads => ["date", "from", "to", "minutes", RoadWords.Unit(month.Unit), "learners of the day"];

    protected override IEnumerable<IEnumerable<object?>> Rows => month.Days.SelectMany(day => day.Legs.Select(leg => new object?[]
    {
        LocalDatePattern.Iso.Format(day.On), SpreadsheetCell.Safe(RoadWords.Code(leg.From, month.Places)), SpreadsheetCell.Safe(RoadWords.Code(leg.To, month.Places)),
        leg.Minutes, leg.Tenths / 10m, SpreadsheetCell.Safe(string.Join(' ', day.Stops.Select(s => s.Learner).Distinct())),
    }));

    /// <summary>The month that an address asks for; this month where it asks for none, or for none that there is.</summary>
    public static YearMonth MonthOf(string? typed, LocalDate today) => Iso.Parse(typed ?? "") is { Success: true, Value: var month } ? month : today.ToYearMonth();
}
