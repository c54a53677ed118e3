using System.ComponentModel.DataAnnotations;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Guide;

/// <summary>A reporting period of whole weeks that a reader of the guide fills in, judged by the ledger itself.</summary>
/// <remarks>As it stands it is the example of docs/rules.md, part 8. Made-up days: only their order matters.</remarks>
public sealed class CountExample : IValidatableObject
{
    private const int MostMinutes = 600;

    private static readonly LocalDate First = new(2026, 8, 17);

    [Range(1, MostMinutes, ErrorMessage = "Give 1 to 600 minutes.")]
    public int Weekly { get; set; } = 60;

    [Range(1, 18, ErrorMessage = "Give 1 to 18 weeks.")]
    public int Weeks { get; set; } = 9;

    /// <summary>How many of the weeks are over on the day from which the count is seen.</summary>
    [Range(0, 18, ErrorMessage = "Give 0 to 18 weeks.")]
    public int Past { get; set; } = 7;

    /// <summary>Minutes given, a number for each week from the first on.</summary>
    public string? Given { get; set; } = "60 60 60 30 60 60 60";

    /// <summary>Minutes planned, a number for each week to come.</summary>
    public string? Planned { get; set; } = "60 60";

    /// <summary>Minutes that people decided are not owed, in the week that <see cref="Week"/> names.</summary>
    [Range(0, MostMinutes, ErrorMessage = "Give 0 to 600 minutes.")]
    public int NotOwed { get; set; }

    /// <summary>Minutes of a make-up visit in the last week that is over, for the week that <see cref="Week"/> names.</summary>
    [Range(0, MostMinutes, ErrorMessage = "Give 0 to 600 minutes.")]
    public int MakeUp { get; set; }

    /// <summary>From 1 on.</summary>
    [Range(1, 18, ErrorMessage = "Give the number of a week, from 1 on.")]
    public int Week { get; set; } = 4;

    [Range(0, 100, ErrorMessage = "Give 0 to 100 percent.")]
    public int Tolerance { get; set; }

    /// <summary>The learner's most minutes a day.</summary>
    [Range(1, MostMinutes, ErrorMessage = "Give 1 to 600 minutes.")]
    public int MostADay { get; set; } = 60;

    private DateRange Days => DateRange.Of(First, First.PlusWeeks(Weeks).PlusDays(-1));

    /// <inheritdoc/>
    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (Past > Weeks)
            yield return new("No more weeks can be over than the reporting period has.", [nameof(Past)]);
        if (Week > Weeks)
            yield return new("The reporting period has no such week.", [nameof(Week)]);
        if (NumberText.Whole(Given, MostMinutes) is not { } given)
            yield return new("Give whole minutes, one number for each week, with spaces between.", [nameof(Given)]);
        else if (given.Count > Past)
            yield return new("Give no more numbers than weeks that are over.", [nameof(Given)]);
        if (NumberText.Whole(Planned, MostMinutes) is not { } planned)
            yield return new("Give whole minutes, one number for each week to come, with spaces between.", [nameof(Planned)]);
        else if (planned.Count > Math.Max(0, Weeks - Past))
            yield return new("Give no more numbers than weeks to come.", [nameof(Planned)]);
    }

    /// <summary>The answer, with every week's sum. Only for what <see cref="Validate"/> finds nothing wrong with.</summary>
    public Working WorkOut()
    {
        var from = Days.First;
        int DayOf(int week) => from + (7 * week);
        var given = NumberText.Whole(Given, MostMinutes)!.Select((minutes, week) => new Entry(DayOf(week) + 1, minutes)).ToList();
        if (MakeUp > 0 && Past > 0)
            given.Add(new(DayOf(Past - 1) + 2, MakeUp, DayOf(Week - 1)));
        return new CommitmentCase
        {
            Calendar = new([IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
                [new Calendar.Term(Days.Start, Days.End, TermKind.Regular)], []),
            Periods = [Days],
            Period = Days,
            Plan = Days,
            Promise = new(new Every(EveryUnit.Week, 1), Days, [new(from, Weekly, 0)]),
            Policy = Policy.Default with { TolerancePercent = Tolerance },
            Given = [.. given],
            Decisions = NotOwed > 0 ? [new(DayOf(Week - 1), NotOwed, Decision.ByLength, DecisionKind.NotOwed)] : [],
            Planned = [.. NumberText.Whole(Planned, MostMinutes)!.Select((minutes, week) => new Entry(DayOf(Past + week) + 1, minutes))],
            OtherBusy = [],
            AsOf = DayOf(Past),
            DailyLimit = MostADay,
        }.WorkOut();
    }
}
