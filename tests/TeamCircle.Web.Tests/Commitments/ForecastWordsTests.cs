using TeamCircle.Core.Commitments;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Commitments;

public sealed class ForecastWordsTests
{
    [Theory]
    [InlineData(0.6408, "64 % likely as planned; 9 of the last 11 visits took place")]
    [InlineData(0, "about 17 minutes would still lack as planned; 9 of the last 11 visits took place")]
    [InlineData(0.004, "less than 1 % likely as planned; 9 of the last 11 visits took place")]
    [InlineData(0.9991, "more than 99 % likely as planned; 9 of the last 11 visits took place")]
    public void Chance_never_stands_without_its_basis_nor_sounds_more_certain_than_it_is(double chance, string words) =>
        Assert.Equal(words, ForecastWords.Short(new(new PastVisits(11, 9), new(chance, 17))));
}
