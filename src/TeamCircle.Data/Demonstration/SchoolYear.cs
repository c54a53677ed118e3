namespace TeamCircle.Data.Demonstration;

/// <summary>The demonstration's school year, laid so that today falls into the sixth week of its second reporting period.</summary>
internal sealed class SchoolYear
{
    /// <summary>Weeks of a reporting period.</summary>
    public const int PeriodWeeks = 9;

    /// <summary>The week, counted from 0 at the start of the year, that holds today.</summary>
    public const int ThisWeek = PeriodWeeks + 5;

    private const int Periods = 4;

    public SchoolYear(LocalDate today)
    {
        Today = today;
        FirstDay = today.With(DateAdjusters.PreviousOrSame(IsoDayOfWeek.Monday)).PlusWeeks(-ThisWeek);
    }

    public LocalDate Today { get; }

    /// <summary>A Monday.</summary>
    public LocalDate FirstDay { get; }

    /// <summary>The Friday of the last week.</summary>
    public LocalDate LastDay => On(Periods * PeriodWeeks - 1, IsoDayOfWeek.Friday);

    public LocalDate PlanStart => FirstDay.PlusDays(-14);

    public LocalDate PlanEnd => PlanStart.PlusYears(1).PlusDays(-1);

    /// <summary>Announced in the calendar of the year.</summary>
    public LocalDate StaffDay => On(4, IsoDayOfWeek.Friday);

    /// <summary>Closed without notice, in the second week of this period.</summary>
    public LocalDate Storm => On(PeriodWeeks + 1, IsoDayOfWeek.Wednesday);

    public (LocalDate First, LocalDate Last) ExtendedTerm => (LastDay.PlusDays(17), LastDay.PlusDays(42));

    public LocalDate On(int week, IsoDayOfWeek day) => FirstDay.PlusDays(7 * week + (int)day - 1);

    public IEnumerable<(string Name, LocalDate Start, LocalDate End)> ReportingPeriods() => Enumerable.Range(0, Periods)
        .Select(p => ($"Period {p + 1}", On(p * PeriodWeeks, IsoDayOfWeek.Monday), On((p + 1) * PeriodWeeks - 1, IsoDayOfWeek.Friday)));
}
