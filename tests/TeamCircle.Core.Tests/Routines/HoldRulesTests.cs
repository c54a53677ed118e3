using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

public sealed class HoldRulesTests
{
    private const int Wren = 7, Herbs = 3;
    private static readonly LocalDateTime Now = new(2026, 10, 2, 9, 0);

    private static readonly HoldEntry Told = new(
        new(Herbs, null, null), "Hip surgery; no weight on the left leg.", HoldWord.Physician, "Dr. Ada Weiss", new(2026, 10, 1), new(16, 30));

    private static Caller ACaller(Relation? relation, Role role = Role.Provider) =>
        new(1, 2, "Bram Nakamura", new HashSet<Role> { role }, relation is { } r ? [new(Wren, r)] : [], Now.Date);

    private static IEnumerable<string> Fields(HoldEntry entry) => HoldRules.Check(entry, Now).Select(p => p.Field);

    [Theory]
    [InlineData(Relation.Team, true)]
    [InlineData(Relation.CaseManager, true)]
    [InlineData(Relation.Substitute, true)]
    [InlineData(Relation.Assistant, true)]
    [InlineData(Relation.Reviewer, false)]
    [InlineData(Relation.Family, false)]
    [InlineData(null, false)]
    public void Everybody_who_works_with_the_learner_sets_a_hold(Relation? relation, bool may)
    {
        Assert.Equal(may, HoldRules.MaySet(ACaller(relation), Wren));
        Assert.False(HoldRules.MaySet(ACaller(relation), Wren + 1));
    }

    [Fact]
    public void Administrator_who_works_with_nobody_sets_none() => Assert.False(HoldRules.MaySet(ACaller(null, Role.Administrator), Wren));

    [Theory]
    [InlineData(Relation.Team, Discipline.PhysicalTherapy, HoldEnding.AsOwner)]
    [InlineData(Relation.Team, Discipline.OccupationalTherapy, HoldEnding.No)]
    [InlineData(Relation.Team, null, HoldEnding.No)]
    [InlineData(Relation.Substitute, Discipline.PhysicalTherapy, HoldEnding.No)]
    [InlineData(Relation.Assistant, Discipline.PhysicalTherapy, HoldEnding.No)]
    [InlineData(Relation.Family, Discipline.PhysicalTherapy, HoldEnding.No)]
    [InlineData(null, Discipline.PhysicalTherapy, HoldEnding.No)]
    [InlineData(Relation.CaseManager, Discipline.PhysicalTherapy, HoldEnding.AsOwner)]
    [InlineData(Relation.CaseManager, Discipline.Vision, HoldEnding.WithAgreement)]
    [InlineData(Relation.CaseManager, null, HoldEnding.WithAgreement)]
    public void Owning_discipline_ends_a_hold_or_the_case_manager_with_a_licensed_persons_word(Relation? relation, Discipline? owner, HoldEnding ending) =>
        Assert.Equal(ending, HoldRules.MayEnd(ACaller(relation), Wren, owner, new HashSet<Discipline> { Discipline.PhysicalTherapy }));

    [Fact]
    public void Hold_on_a_service_stops_it_and_what_continues_it_and_no_routine_elsewhere()
    {
        static int? Continues(int service) => service switch { 12 => 11, 11 => 9, _ => null };

        Assert.Equal([true, true, true, false, false], new int?[] { 9, 11, 12, 8, null }.Select(service => HoldRules.StopsService(9, service, Continues)));
        Assert.False(HoldRules.StopsService(11, 9, Continues));
        Assert.Equal(HoldEffect.Nothing, HoldRules.Effect(new(null, null, null, 9), Herbs, null));
    }

    [Fact]
    public void Hold_says_on_what_why_and_on_whose_word()
    {
        Assert.Empty(Fields(Told));
        Assert.Empty(Fields(Told with { ToldAs = HoldWord.Own, ToldBy = null, ToldOn = null, ToldTime = null }));
        Assert.Equal(["On", "Reason", "ToldAs"], Fields(new(new(null, null, null), " ", null, null, null, null)));
        Assert.Equal(["On"], Fields(Told with { Place = new(Herbs, null, TeachPart.Hands) }));
        Assert.Equal(["On"], Fields(Told with { Place = new(null, "s1", TeachPart.Hands) }));
        Assert.Equal(["On"], Fields(Told with { Place = new(Herbs, null, null, 9) }));
        Assert.Equal(["On"], Fields(Told with { Place = new(null, "s1", null, 9) }));
        Assert.Empty(Fields(Told with { Place = new(null, null, null, 9) }));
        Assert.Equal(["Reason"], Fields(Told with { Reason = new string('x', HoldRules.LongestReason + 1) }));
        Assert.Equal(["ToldBy", "ToldOn"], Fields(Told with { ToldBy = "", ToldOn = null }));
    }

    [Theory]
    [InlineData(2, 9, 0, true)]
    [InlineData(2, 9, 1, false)]
    [InlineData(3, 0, 0, false)]
    [InlineData(1, 23, 0, true)]
    public void Nobody_has_said_it_in_the_time_to_come(int day, int hour, int minute, bool holds) =>
        Assert.Equal(holds ? [] : ["ToldOn"], Fields(Told with { ToldOn = new(2026, 10, day), ToldTime = new(hour, minute) }));

    [Fact]
    public void Hold_ends_with_words_and_with_a_name_where_the_case_manager_ends_it()
    {
        Assert.Empty(HoldRules.CheckEnd(HoldEnding.AsOwner, "Sits again as before.", null));
        Assert.Equal(["Word"], HoldRules.CheckEnd(HoldEnding.AsOwner, " ", null).Select(p => p.Field));
        Assert.Equal(["AgreedBy"], HoldRules.CheckEnd(HoldEnding.WithAgreement, "Healed.", " ").Select(p => p.Field));
        Assert.Empty(HoldRules.CheckEnd(HoldEnding.WithAgreement, "Healed.", "Dr. Ada Weiss, physician"));
    }

    public static TheoryData<HoldPlace, RoutineContent?, HoldEffect> Effects => new()
    {
        { new(Herbs, null, null), ACard.Herbs, HoldEffect.Whole },
        { new(Herbs, "s2", null), ACard.Herbs, HoldEffect.Step },
        { new(Herbs + 1, null, null), ACard.Herbs, HoldEffect.Nothing },
        { new(null, null, TeachPart.Position), ACard.Herbs, HoldEffect.Whole },
        { new(null, null, TeachPart.Position), new() { Cue = "a bell" }, HoldEffect.Nothing },
        { new(null, null, TeachPart.Position), new() { Cautions = [new("c1", CautionKind.Positioning, "Upright.")] }, HoldEffect.Whole },
        { new(null, null, TeachPart.Position), null, HoldEffect.Whole }, // nobody knows what is in it
        { new(null, null, TeachPart.Hands), new() { Position = "on her side" }, HoldEffect.Nothing },
        { new(null, null, TeachPart.Hands), new() { Prompts = [new("p1", "Guide", new(HandPlace.Under, "elbow", BodySide.Left, "stops"))] }, HoldEffect.Whole },
        { new(null, null, TeachPart.Hands), new() { Prompts = [new("p1", "Say it")] }, HoldEffect.Nothing },
        { new(null, null, TeachPart.Switch), new() { Device = new("soft switch") }, HoldEffect.Whole },
        { new(null, null, TeachPart.Switch), new() { Cue = "a bell" }, HoldEffect.Nothing },
        { new(null, null, TeachPart.Cautions), new() { Cue = "a bell" }, HoldEffect.Whole },
        { new(null, null, TeachPart.SignalStop), new() { Cue = "a bell" }, HoldEffect.Whole },
        { new(null, null, TeachPart.ShowingThings), new() { Cue = "a bell" }, HoldEffect.Whole },
    };

    [Theory]
    [MemberData(nameof(Effects))]
    public void Hold_stops_what_it_lies_on_and_what_uses_that_part(HoldPlace place, RoutineContent? card, HoldEffect effect) =>
        Assert.Equal(effect, HoldRules.Effect(place, Herbs, card));

    [Fact]
    public void Cautions_are_the_same_while_their_words_are()
    {
        var seen = CautionMarks.Of(ACard.Herbs);

        Assert.Equal(64, seen!.Length);
        Assert.Equal(seen, CautionMarks.Of(ACard.Herbs with { Position = "on her side", Cautions = [.. ACard.Herbs.Cautions] }));
        Assert.NotEqual(seen, CautionMarks.Of(ACard.Herbs with { Cautions = [new("c1", CautionKind.PowerAndWater, "The pump runs on mains.")] }));
        Assert.NotEqual(seen, CautionMarks.Of(ACard.Herbs with { SeizuresAsked = "Her mother: one in September." }));
        Assert.Null(CautionMarks.Of(new() { Position = "upright" }));
        Assert.NotNull(CautionMarks.Of(new() { Flashing = true }));
    }
}
