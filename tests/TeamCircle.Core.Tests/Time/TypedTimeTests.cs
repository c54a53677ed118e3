using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Time;

public sealed class TypedTimeTests
{
    [Theory]
    [InlineData("9:05", 9, 5)]
    [InlineData("09:05", 9, 5)]
    [InlineData("9.05", 9, 5)]
    [InlineData("905", 9, 5)]
    [InlineData("1510", 15, 10)]
    [InlineData(" 9 ", 9, 0)]
    [InlineData("9:05 AM", 9, 5)]
    [InlineData("9:05pm", 21, 5)]
    [InlineData("310p", 15, 10)]
    [InlineData("12:00 am", 0, 0)]
    [InlineData("12 pm", 12, 0)]
    [InlineData("0:00", 0, 0)]
    [InlineData("23:59", 23, 59)]
    public void Time_as_people_type_it_is_read(string text, int hour, int minute) =>
        Assert.Equal(new LocalTime(hour, minute), TypedTime.Read(text));

    [Theory]
    [InlineData("")]
    [InlineData("soon")]
    [InlineData("24:00")]
    [InlineData("9:60")]
    [InlineData("9:5")]
    [InlineData("13:00 pm")]
    [InlineData("0:30 am")]
    [InlineData("9:05:00")]
    [InlineData("-9:05")]
    [InlineData("12345")]
    [InlineData("٩:٠٥")]
    public void Text_that_is_no_time_is_none(string text) => Assert.Null(TypedTime.Read(text));

    [Theory]
    [InlineData("14:00", "3:10", 15, 10)]
    [InlineData("14:00", "3:10 am", 3, 10)]
    [InlineData("9:00", "9:45", 9, 45)]
    [InlineData("15:30", "3:10", 3, 10)]
    [InlineData("14:00", "13:10", 13, 10)]
    public void End_before_the_start_is_read_as_afternoon_only_where_that_comes_after(string start, string end, int hour, int minute) =>
        Assert.Equal(new LocalTime(hour, minute), TypedTime.ReadEnd(end, TypedTime.Read(start)!.Value));
}
