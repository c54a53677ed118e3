using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Rights;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Rights;

/// <summary>Requests about a record: their outer date, answers, hearings.</summary>
public sealed class RequestRulesTests
{
    private static readonly LocalDate Received = new(2026, 9, 1), Today = new(2026, 10, 2);

    [Fact]
    public void Outer_date_is_the_published_one()
    {
        var published = LocalDatePattern.Iso.Parse(Published.Read("misc.json").At("RA-01/date").GetString()!).Value;

        Assert.Equal(published, RequestRules.OuterDate(Received));
        Assert.True(RequestRules.IsNear(Received, published.PlusDays(-RequestRules.WarningDays)));
        Assert.False(RequestRules.IsNear(Received, published.PlusDays(-RequestRules.WarningDays - 1)));
    }

    [Fact]
    public void Refusal_needs_the_notice_of_the_right_to_a_hearing_and_an_answer_fits_its_request()
    {
        Assert.Empty(Answer(RequestKind.Amend, RequestAnswer.Refused, Today));
        Assert.Equal(["NoticeOn"], Answer(RequestKind.Amend, RequestAnswer.Refused, null));
        Assert.Equal(["Answer"], Answer(RequestKind.See, RequestAnswer.Refused, Today));
        Assert.Equal(["Answer"], Answer(RequestKind.Amend, RequestAnswer.Shown, null));
        Assert.Equal(["AnsweredOn"], [.. RequestRules.CheckAnswer(RequestKind.See, Received, RequestAnswer.Shown, "All of it.", Received.PlusDays(-1), null, Today).Select(p => p.Field)]);
    }

    [Fact]
    public void Hearing_is_asked_for_after_the_answer_and_its_outcome_has_a_day()
    {
        Assert.Empty(RequestRules.CheckHearing(Received, Received, null, null, Today));
        Assert.NotEmpty(RequestRules.CheckHearing(Received, Received, Today, " ", Today));
        Assert.NotEmpty(RequestRules.CheckHearing(Received, Received.PlusDays(-1), null, null, Today));
    }

    private static IEnumerable<string> Answer(RequestKind kind, RequestAnswer answer, LocalDate? notice) =>
        RequestRules.CheckAnswer(kind, Received, answer, "The record says what was seen.", Received.PlusDays(3), notice, Today).Select(p => p.Field);
}
