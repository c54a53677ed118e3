using NodaTime;
using TeamCircle.Core.Finding;

namespace TeamCircle.Core.Tests.Finding;

public sealed class SoughtTests
{
    private static readonly LocalDate Today = new(2026, 9, 15);

    [Theory]
    [InlineData("2026-09-12", "2026-09-12", "")]
    [InlineData("12 September", "2026-09-12", "")]
    [InlineData("wren 12th of Sep. 2025", "2025-09-12", "wren")]
    [InlineData("sept 3, odalys", "2026-09-03", "odalys")]
    [InlineData("9/12", "2026-09-12", "")]
    [InlineData("13/9/26 jonah", "2026-09-13", "jonah")]
    [InlineData("January 4", "2027-01-04", "")] // nearer than last January's
    [InlineData("1 June", "2026-06-01", "")]
    [InlineData("29 feb", null, "29 feb")] // none of the three years has one
    [InlineData("tomorrow Wren", "2026-09-16", "wren")]
    [InlineData("12 spoons", null, "12 spoons")]
    [InlineData("9/31", null, "9 31")]
    [InlineData("2026-09-12 2026-09-13", "2026-09-12", "2026 09 13")]
    public void Day_is_read_in_the_ways_that_people_write_it(string typed, string? day, string words)
    {
        var sought = Sought.Of(typed, Today);

        Assert.Equal(day, sought.Day?.ToString("uuuu-MM-dd", null));
        Assert.Equal(words, string.Join(' ', sought.Words));
    }

    [Theory]
    [InlineData("  Belmares,  WREN wren ", "belmares wren")]
    [InlineData("Éloïse O'Dea", "eloise o dea")]
    [InlineData("50%_ (G-1) \\", "50 g 1")]
    public void Words_are_plain_letters_and_digits(string typed, string words) => Assert.Equal(words, string.Join(' ', Sought.Of(typed, Today).Words));

    [Theory]
    [InlineData(null, true)]
    [InlineData(" ' % ", true)]
    [InlineData("w", true)]
    [InlineData("wr", false)]
    [InlineData("9/12", false)]
    public void One_letter_is_nothing_to_look_for(string? typed, bool isEmpty) => Assert.Equal(isEmpty, Sought.Of(typed, Today).IsEmpty);

    [Fact]
    public void No_more_is_looked_for_than_one_can_mean()
    {
        Assert.Equal(Sought.MostWords, Sought.Of(string.Join(' ', Enumerable.Range(10, 30)), Today).Words.Count);
        Assert.Equal(Sought.MostLetters, Assert.Single(Sought.Of(new string('a', 4000), Today).Words).Length);
    }
}
