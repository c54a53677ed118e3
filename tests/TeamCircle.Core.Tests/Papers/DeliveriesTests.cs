using NodaTime;
using TeamCircle.Core.Papers;

namespace TeamCircle.Core.Tests.Papers;

/// <summary>Where a paper stands after it was sent, came back, and was sent again.</summary>
public sealed class DeliveriesTests
{
    private static readonly LocalDate Due = new(2026, 10, 30);

    private static DeliveryState State(LocalDate today, params (int Sent, int? Back)[] sendings) => Deliveries.StateOf(
        Due, [.. sendings.Select(s => new Sending(Due.PlusDays(s.Sent), s.Back is { } back ? Due.PlusDays(back) : null))], today);

    [Fact]
    public void Unsent_paper_is_overdue_on_the_day_after_its_last()
    {
        Assert.Equal(DeliveryState.NotYet, State(Due));
        Assert.Equal(DeliveryState.Overdue, State(Due.PlusDays(1)));
        Assert.Equal(DeliveryState.NotYet, Deliveries.StateOf(null, [], Due));
    }

    [Fact]
    public void Paper_that_came_back_counts_only_once_it_is_sent_again()
    {
        var later = Due.PlusDays(20);

        Assert.Equal(DeliveryState.Sent, State(later, (0, null)));
        Assert.Equal(DeliveryState.SentLate, State(later, (1, null)));
        Assert.Equal(DeliveryState.Returned, State(later, (-3, 2)));
        Assert.Equal(DeliveryState.SentLate, State(later, (-3, 2), (4, null)));
        Assert.Equal(DeliveryState.Returned, State(later, (-3, 2), (4, 9)));
        Assert.Equal(DeliveryState.Sent, State(later, (-3, 2), (-3, null)));
        Assert.Equal(DeliveryState.Sent, Deliveries.StateOf(null, [new(Due, null)], later));
    }

    [Fact]
    public void Sending_says_when_how_in_which_language_and_to_whom()
    {
        Assert.Empty(Deliveries.Check(PaperKind.Report, null, Due, DeliveryWay.Post, "Spanish", "Ines Belmares, her mother", Due));
        Assert.Equal(["Paper", "SentOn", "Way", "Language", "ToWhom"], [.. Deliveries.Check(null, null, Due.PlusDays(1), null, " ", null, Due).Select(p => p.Field)]);
        Assert.Equal(["About"], [.. Deliveries.Check(PaperKind.PriorNotice, " ", Due, DeliveryWay.Handed, "English", "her mother", Due).Select(p => p.Field)]);
    }

    [Fact]
    public void Paper_comes_back_after_it_was_sent_with_a_word()
    {
        Assert.Empty(Deliveries.CheckReturn(Due, Due, "Nobody at that address", Due));
        Assert.Equal(["ReturnedOn", "ReturnedWord"], [.. Deliveries.CheckReturn(Due, Due.PlusDays(-1), "", Due).Select(p => p.Field)]);
        Assert.Equal(["ReturnedOn"], [.. Deliveries.CheckReturn(Due, Due.PlusDays(1), "Nobody there", Due).Select(p => p.Field)]);
    }
}
