using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>What a visit or a series would come to, before it is saved.</summary>
/// <param name="Words">The series in plain words; null for a single visit, or while it cannot be read yet.</param>
/// <param name="Clashes">What stands against it; of a series the first of each day, with the day in front.</param>
/// <param name="Closed">Days without school, in words.</param>
public sealed record ScheduleLook(string? Words, IReadOnlyList<(bool IsRefused, string Words)> Clashes, string? Closed)
{
    public bool IsEmpty => Words is null && Clashes.Count == 0;

    public static ScheduleLook Of(IReadOnlyList<Clash> clashes) => new(null, [.. clashes.Select(c => (c.IsRefused, c.Words))], null);

    public static ScheduleLook Of(ScheduleSeries.Input input, SeriesLook? look)
    {
        if (look is null || input is not { Start: { } start, Minutes: { } minutes })
            return new(null, [], null);
        var cadence = new Cadence(input.Cadence.Unit, input.Cadence.Every, input.Cadence.Days, input.Cadence.Which);
        var until = input.EndsOn is { } last ? $"until {Say.Date(last)}" : "to the end of the plan";
        return new(
            $"{Say.Begin(cadence.Words)}, {Say.Times(start, start.PlusMinutes(minutes))}, {until}: {Say.Count(look.Visits, "visit")}.",
            [.. look.Clashes.DistinctBy(c => c.On).Select(c => (c.IsRefused, $"{Say.Weekday(c.On)}: {c.Words}"))], SeriesWords.Closed(look.Closed));
    }
}
