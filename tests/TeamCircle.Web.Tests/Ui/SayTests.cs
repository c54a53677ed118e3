using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Ui;

public sealed class SayTests
{
    [Theory]
    [InlineData(EveryUnit.Week, 1, "week of 14 September")]
    [InlineData(EveryUnit.Week, 2, "2 weeks from 14 September")]
    [InlineData(EveryUnit.Month, 1, "September")]
    [InlineData(EveryUnit.Period, 1, "reporting period from 14 September")]
    [InlineData(EveryUnit.PlanYear, 1, "plan year from 14 September 2026")]
    public void Window_has_the_name_of_the_glossary(EveryUnit unit, int count, string name) =>
        Assert.Equal(name, Say.Window(new Every(unit, count), new LocalDate(2026, 9, 14)));

    [Fact]
    public void Every_status_has_words_and_a_mark_of_its_own()
    {
        var statuses = Enum.GetValues<Status>();

        Assert.Equal(statuses.Length, statuses.Select(Say.Status).Distinct().Count());
        Assert.Equal(statuses.Length, statuses.Select(StatusMarkTagHelper.Draw).Distinct().Count());
    }

    [Theory]
    [InlineData(9, 30, 10, 15, "9:30 to 10:15 am")]
    [InlineData(11, 30, 12, 15, "11:30 am to 12:15 pm")]
    public void Times_name_the_half_of_the_day_once_where_it_is_the_same(int h1, int m1, int h2, int m2, string words) =>
        Assert.Equal(words, Say.Times(new LocalTime(h1, m1), new LocalTime(h2, m2)));

    [Fact]
    public void Promise_reads_as_a_plan_would_be_read_aloud()
    {
        Assert.Equal("60 minutes a week in 2 sessions", Say.Promise(60, null, 2, new Every(EveryUnit.Week, 1)));
        Assert.Equal("30 to 60 minutes every 2 weeks", Say.Promise(30, 60, null, new Every(EveryUnit.Week, 2)));
    }
}
