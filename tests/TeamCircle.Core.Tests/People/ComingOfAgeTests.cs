using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.People;

/// <summary>When rights over a record pass to the learner: 34 CFR 300.520, 300.625 and 99.5 leave the age to the state and the day to the calendar. By hand.</summary>
public sealed class ComingOfAgeTests
{
    private static readonly MajorityPolicy Usual = new(18, true);

    [Theory]
    [InlineData(2008, 10, 5, 18, 2026, 10, 5)]
    [InlineData(2008, 2, 29, 18, 2026, 3, 1)] // no 29 February in 2026
    [InlineData(2008, 2, 28, 18, 2026, 2, 28)]
    [InlineData(2004, 2, 29, 20, 2024, 2, 29)] // there is one in 2024
    [InlineData(2007, 12, 31, 19, 2026, 12, 31)]
    public void Day_is_the_birthday_and_after_a_leap_day_the_first_of_March(int year, int month, int day, int years, int toYear, int toMonth, int toDay) =>
        Assert.Equal(new LocalDate(toYear, toMonth, toDay), ComingOfAge.Day(new(year, month, day), years));

    [Fact]
    public void Family_reads_to_the_day_before_and_pauses_from_the_day_on()
    {
        LocalDate born = new(2008, 10, 5), day = new(2026, 10, 5);

        Assert.False(ComingOfAge.IsPaused(born, Usual, null, day.PlusDays(-1)));
        Assert.True(ComingOfAge.IsPaused(born, Usual, null, day));
        Assert.False(ComingOfAge.IsPaused(born, Usual, AdultBasis.Guardianship, day));
        Assert.False(ComingOfAge.IsPaused(born, Usual, AdultBasis.OwnRecord, day.PlusYears(5)));
        Assert.False(ComingOfAge.IsPaused(born, Usual with { Pauses = false }, null, day));
        Assert.False(ComingOfAge.IsPaused(born, Usual with { Years = 19 }, null, day));
        Assert.False(ComingOfAge.IsPaused(null, Usual, null, day));
    }

    [Fact]
    public void Notice_is_due_ninety_days_before_until_they_were_told()
    {
        LocalDate born = new(2008, 10, 5), due = new(2026, 7, 7); // 24 of July, 31 of August, 30 of September and 5 of October are 90

        Assert.False(ComingOfAge.IsNoticeDue(born, 18, null, due.PlusDays(-1)));
        Assert.True(ComingOfAge.IsNoticeDue(born, 18, null, due));
        Assert.True(ComingOfAge.IsNoticeDue(born, 18, null, due.PlusYears(1)));
        Assert.False(ComingOfAge.IsNoticeDue(born, 18, due, due));
    }
}
