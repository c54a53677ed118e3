using TeamCircle.Core.Practice;
using TeamCircle.Data.Practice;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>What the pages of time to respond show: of a goal or of a routine, in the same way.</summary>
/// <param name="By">The seconds that were asked for.</param>
public sealed record WaitView(WaitPage Page, int By)
{
    /// <summary>The longest time that a form may ask for.</summary>
    public const int MostSeconds = 600;

    private const int AnySeconds = 10;

    public WaitReport Report => Page.Report;

    /// <param name="asked">Null: the longest wait in use, or else the longest time tried.</param>
    public static WaitView Of(WaitPage page, int? asked)
    {
        var usual = page.Report.Waits.Count > 0 ? page.Report.Waits[^1] : page.Report.Curve.Trials > 0 ? (int)page.Report.Curve.Longest : AnySeconds;
        return new(page, Math.Clamp(asked ?? usual, 0, MostSeconds));
    }

    /// <summary>By person, for the team alone.</summary>
    public WaitTables People => new("Time to respond by person", "Person", By,
        [(null, new([.. Report.ByPerson.Where(p => Page.People.ContainsKey(p.Person)).Select(p => new WaitGroup(Page.People[p.Person], p.Curve))], null))]);

    public WaitTables Conditions => new("Time to respond by one condition", "Condition", By,
        [("Side", Report.BySide), ("Position", Report.ByPosition), ("State at the start", Report.ByState), ("Place", Report.ByPlace), ("Month", Report.ByMonth)]);
}

/// <summary>Groups of trials, one row each, under the name of what they differ in.</summary>
/// <param name="Words">What the table shows.</param>
/// <param name="First">Heads the first column.</param>
public sealed record WaitTables(string Words, string First, int By, IReadOnlyList<(string? Name, WaitComparison Groups)> Tables);

/// <summary>One curve or two over the same seconds, as a table that a chart is drawn from.</summary>
/// <param name="Key">Names the table and its figure on the page.</param>
public sealed record WaitNumbers(string Key, string Words, IReadOnlyList<int> Waits, IReadOnlyList<(string Name, WaitCurve Curve)> Curves)
{
    /// <summary>For each second of the longest curve: what each curve says there.</summary>
    public IReadOnlyList<(int Seconds, IReadOnlyList<WaitReading> Readings)> Rows
    {
        get
        {
            var longest = Curves.MaxBy(c => c.Curve.Longest).Curve;
            return [.. longest.Readings().Select(r => (r.Seconds, (IReadOnlyList<WaitReading>)[.. Curves.Select(c => c.Curve.At(r.Seconds))]))];
        }
    }
}
