using NodaTime;
using TeamCircle.Core.Import;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Import;

public sealed class CellTextTests
{
    [Theory]
    [InlineData("2026-09-14", 2026, 9, 14, false)]
    [InlineData("9/14/2026", 2026, 9, 14, false)]
    [InlineData("09/14/2026", 2026, 9, 14, false)]
    [InlineData("9/1/2026", 2026, 9, 1, true)] // could be 9 January
    [InlineData("9/9/2026", 2026, 9, 9, false)] // the same either way
    [InlineData("2/29/2028", 2028, 2, 29, false)]
    public void Date_is_read_with_the_month_first(string text, int year, int month, int day, bool ambiguous)
    {
        var read = CellText.Date(text);

        Assert.Equal(new LocalDate(year, month, day), read.Day);
        Assert.Equal(ambiguous, read.Ambiguous);
        Assert.Null(read.Problem);
    }

    [Theory]
    [InlineData("13/9/2026")]
    [InlineData("2026-02-30")]
    [InlineData("2/29/2027")]
    [InlineData("9/14/26")]
    [InlineData("2026-9-14")]
    [InlineData("14.9.2026")]
    [InlineData("0/1/2026")]
    [InlineData("1/0/2026")]
    [InlineData("1/1/0000")]
    [InlineData("0026-09-14")]
    [InlineData("2026-09-14T08:00")]
    [InlineData("soon")]
    public void Date_that_cannot_be_read_has_a_reason(string text)
    {
        var read = CellText.Date(text);

        Assert.Null(read.Day);
        Assert.NotNull(read.Problem);
    }

    [Theory]
    [InlineData("9:05", 9, 5)]
    [InlineData("09:05", 9, 5)]
    [InlineData("9.05", 9, 5)]
    [InlineData("9:05 AM", 9, 5)]
    [InlineData("9:05pm", 21, 5)]
    [InlineData("12:00 PM", 12, 0)]
    [InlineData("12:30 am", 0, 30)]
    [InlineData("2:10 p.m.", 14, 10)]
    [InlineData("00:00", 0, 0)]
    [InlineData("23:59", 23, 59)]
    public void Time_is_read_in_24_hours_or_with_am_and_pm(string text, int hour, int minute) =>
        Assert.Equal(new LocalTime(hour, minute), CellText.Time(text));

    [Theory]
    [InlineData("25:10")]
    [InlineData("99:99")]
    [InlineData("9:60")]
    [InlineData("13:05 PM")]
    [InlineData("0:05 AM")]
    [InlineData("24:00")]
    [InlineData("9")]
    [InlineData("9:5")]
    [InlineData("noon")]
    public void Time_that_cannot_be_read_is_none(string text) => Assert.Null(CellText.Time(text));

    [Theory]
    [InlineData("week", EveryUnit.Week, 1)]
    [InlineData("2 weeks", EveryUnit.Week, 2)]
    [InlineData("Month", EveryUnit.Month, 1)]
    [InlineData("3 months", EveryUnit.Month, 3)]
    [InlineData("period", EveryUnit.Period, 1)]
    [InlineData("plan  year", EveryUnit.PlanYear, 1)]
    public void Frequency_is_read_in_words(string text, EveryUnit unit, int count) => Assert.Equal(new Every(unit, count), CellText.Every(text));

    [Theory]
    [InlineData("2 periods")]
    [InlineData("2 period")]
    [InlineData("0 weeks")]
    [InlineData("year")]
    [InlineData("")]
    public void Frequency_that_is_none_of_them_is_none(string text) => Assert.Null(CellText.Every(text));

    [Fact]
    public void Criterion_is_k_of_n_with_k_at_most_n()
    {
        Assert.Equal((3, 4), CellText.Criterion("3 of 4"));
        Assert.Null(CellText.Criterion("5 of 4"));
        Assert.Null(CellText.Criterion("0 of 4"));
        Assert.Null(CellText.Criterion("3/4"));
    }

    [Theory]
    [InlineData("=SUM(A1:A9)", "'=SUM(A1:A9)")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@x", "'@x")]
    [InlineData("\tx", "'\tx")]
    [InlineData("rested", "rested")]
    [InlineData("", "")]
    public void Cell_that_a_spreadsheet_would_run_is_marked(string text, string safe) => Assert.Equal(safe, SpreadsheetCell.Safe(text));
}
