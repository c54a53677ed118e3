using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Retention;

namespace TeamCircle.Core.Tests.Retention;

public sealed class RetentionRulesTests
{
    private static readonly LocalDate Today = new(2032, 2, 29);

    [Theory]
    [InlineData(CountedFrom.RecordMade, 5, null, "2027-02-28")]
    [InlineData(CountedFrom.RecordMade, 4, null, "2028-02-29")]
    [InlineData(CountedFrom.LearnerLeft, 5, "2027-02-28", "2032-02-29")]
    [InlineData(CountedFrom.LearnerLeft, 5, "2027-03-01", null)]
    [InlineData(CountedFrom.LearnerLeft, 5, null, null)] // still here
    public void Years_are_counted_from_the_entry_or_from_the_day_the_learner_left(CountedFrom from, int years, string? left, string? upTo) =>
        Assert.Equal(Day(upTo), RetentionRules.DueUpTo(from, years, Day(left), Today));

    [Theory]
    [InlineData(false, false, false, null, DestructionStage.Proposed)]
    [InlineData(false, false, false, "2032-03-01", DestructionStage.Waits)]
    [InlineData(false, false, false, "2032-02-29", DestructionStage.Ready)]
    [InlineData(false, false, true, "2032-02-29", DestructionStage.Agreed)]
    [InlineData(false, true, true, "2032-02-29", DestructionStage.Stopped)]
    [InlineData(true, false, true, "2032-02-29", DestructionStage.Destroyed)]
    public void Stage_is_what_was_done_last_and_the_family_has_its_days(bool destroyed, bool stopped, bool agreed, string? until, DestructionStage stage) =>
        Assert.Equal(stage, RetentionRules.StageOf(destroyed, stopped, agreed, Day(until), Today));

    [Fact]
    public void It_takes_two_and_one_of_them_is_a_director()
    {
        var director = new Caller(1, 7, "Solveig", new HashSet<Role> { Role.Director }, [], Today);
        var manager = new Caller(1, 8, "Marisol", new HashSet<Role> { Role.CaseManager }, [new(3, Relation.CaseManager)], Today);

        Assert.True(RetentionRules.MayDecide(director));
        Assert.False(RetentionRules.MayDecide(manager));
        Assert.False(RetentionRules.MayDestroy(director, 3, director.PersonId));
        Assert.True(RetentionRules.MayDestroy(manager, 3, director.PersonId));
        Assert.False(RetentionRules.MayDestroy(manager, 4, director.PersonId)); // somebody else's learner
        Assert.False(RetentionRules.MayDestroy(manager, 3, null));
    }

    private static LocalDate? Day(string? text) => text is null ? null : NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
