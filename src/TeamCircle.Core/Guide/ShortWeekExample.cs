using System.ComponentModel.DataAnnotations;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Guide;

/// <summary>One week with fewer school days than usual, under each of the three rules.</summary>
/// <remarks>As it stands it is the first example of docs/rules.md, part 3.</remarks>
public sealed class ShortWeekExample
{
    private static readonly LocalDate Monday = new(2026, 9, 7);

    [Range(1, 600, ErrorMessage = "Give 1 to 600 minutes.")]
    public int Weekly { get; set; } = 60;

    /// <summary>Published holidays at the week's beginning.</summary>
    [Range(0, 5, ErrorMessage = "Give 0 to 5 days.")]
    public int Holidays { get; set; } = 1;

    /// <summary>The weekday on which the service begins, 1 for Monday; earlier days are not its own.</summary>
    [Range(1, 5, ErrorMessage = "Choose a day from Monday to Friday.")]
    public int From { get; set; } = 1;

    /// <summary>Each rule with the minutes that the week then owes.</summary>
    public IReadOnlyList<(ShortWindow Rule, int Owed)> WorkOut() => [.. Enum.GetValues<ShortWindow>().Select(rule => (rule, Owed(rule)))];

    private int Owed(ShortWindow rule)
    {
        var week = DateRange.Of(Monday, Monday.PlusDays(6));
        var days = new DateRange(week.First + From - 1, week.Last);
        var working = new CommitmentCase
        {
            Calendar = new([IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
                [new Calendar.Term(Monday.PlusWeeks(-3), Monday.PlusWeeks(3), TermKind.Regular)],
                Enumerable.Range(0, Holidays).Select(day => new SpecialDay(Monday.PlusDays(day), ClosureKind.Published))),
            Periods = [week],
            Period = week,
            Plan = week,
            Promise = new(new Every(EveryUnit.Week, 1), days, [new(days.First, Weekly, 0)]),
            Policy = Policy.Default with { ShortWindow = rule },
            Given = [],
            Decisions = [],
            Planned = [],
            OtherBusy = [],
            AsOf = week.First,
            DailyLimit = null,
        }.WorkOut();
        return working.Balance.Minutes.Owed;
    }
}
