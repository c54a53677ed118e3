using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

public sealed class ReviewRulesTests
{
    private static readonly LocalDate Reviewed = new(2026, 1, 15);

    private static ReviewStanding On(LocalDate today, RoutineContent? card = null, int number = 2, RoutineContent? reviewed = null, int months = 12) =>
        ReviewRules.Standing(card ?? ACard.Herbs, number, [new(7, 1, Reviewed, reviewed ?? ACard.Herbs)], months, today);

    [Theory]
    [InlineData(2026, 1, 15, ReviewState.Reviewed)]
    [InlineData(2026, 12, 14, ReviewState.Reviewed)]
    [InlineData(2026, 12, 15, ReviewState.Due)] // 30 days before the last
    [InlineData(2027, 1, 14, ReviewState.Due)]
    [InlineData(2027, 1, 15, ReviewState.Missing)]
    public void Review_holds_for_twelve_months_and_warns_before(int year, int month, int day, ReviewState state)
    {
        var standing = On(new(year, month, day));

        Assert.Equal((state, 7, new LocalDate(2027, 1, 14)), (standing.State, standing.Review!.Id, standing.Until));
    }

    [Fact]
    public void Agency_may_set_another_span() => Assert.Equal(ReviewState.Missing, On(Reviewed.PlusMonths(6), months: 6).State);

    [Fact]
    public void What_needs_no_review_carries_the_review_on()
    {
        var later = ACard.Herbs with
        {
            Cue = "the green can",
            Light = "daylight",
            WaitSeconds = 20,
            Steps = [],
            Prompts = [.. ACard.Herbs.Prompts.Select(p => p with { WaitSeconds = 30, Words = p.Physical is null ? "Say water" : p.Words })],
        };

        Assert.Equal(ReviewState.Reviewed, On(Reviewed, later).State);
    }

    public static TheoryData<string, RoutineContent> Changed => new()
    {
        { "position", ACard.Herbs with { Position = "on her side" } },
        { "support", ACard.Herbs with { Support = null } },
        { "a physical prompt", ACard.Herbs with { Prompts = [new("p3", "Lift", new(HandPlace.Over, "hand", BodySide.Right, "stops"))] } },
        { "a caution", ACard.Herbs with { Cautions = [.. ACard.Herbs.Cautions, new("c2", CautionKind.Skin, "Look at the strap.")] } },
        { "the device", ACard.Herbs with { Device = ACard.Herbs.Device! with { Measures = "10 cm" } } },
        { "the appliance", ACard.Herbs with { Appliance = new("small pump", ApplianceKind.Latch) } },
        { "who feeds", ACard.Herbs with { WhoFeeds = "her mother" } },
        { "what flashes", ACard.Herbs with { SeizuresAsked = "Not asked again." } },
    };

    [Theory]
    [MemberData(nameof(Changed))]
    public void Other_content_needs_another_review(string what, RoutineContent card)
    {
        var standing = On(Reviewed, card);

        Assert.True(standing is { State: ReviewState.Missing, Review: null, IsOutdated: true }, what);
    }

    [Fact]
    public void Review_of_a_later_version_says_nothing_about_an_earlier_one() =>
        Assert.Equal((ReviewState.Missing, false), (On(Reviewed, number: 0).State, On(Reviewed, number: 0).IsOutdated));

    [Fact]
    public void Nothing_is_needed_without_positioning_and_physical_assistance()
    {
        Assert.Equal(ReviewState.NotNeeded, On(Reviewed, new() { Cue = "a bell", Allergies = "nuts" }).State);
        Assert.True(ReviewRules.IsNeeded(new() { Support = "a hand at the elbow" }));
        Assert.True(ReviewRules.IsNeeded(new() { Cautions = [new("c1", CautionKind.PhysicalAssistance, "Two adults.")] }));
    }

    [Theory]
    [InlineData(Discipline.PhysicalTherapy, true)]
    [InlineData(Discipline.OccupationalTherapy, true)]
    [InlineData(Discipline.SpeechLanguage, true)]
    [InlineData(Discipline.Vision, false)]
    [InlineData(Discipline.SpecialEducation, false)]
    public void Licensed_disciplines_review(Discipline discipline, bool licensed) => Assert.Equal(licensed, ReviewRules.IsLicensed(discipline));
}
