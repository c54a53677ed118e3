using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Sessions;

public sealed class GiverTests
{
    private const int Wren = 1, Supervisor = 7, Assistant = 8, Manager = 9;

    private static readonly SessionEntry Given = new() { Outcome = VisitOutcome.Given, OnDay = new(2026, 9, 15), Start = new(9, 0), End = new(9, 45) };

    private static SessionVerdict By(Giver giver, SessionEntry? entry = null) => SessionRules.Check(entry ?? Given, new(
        new LocalDateTime(2026, 9, 15, 9, 45), new PlannedTimes(new(9, 0), 45), SchoolYear.Service(Core.Learners.CoTreatment.None, false) with { Giver = giver })).Value!;

    [Theory]
    [InlineData(Relation.Team, false, false, 45, null)] // of the team: named for the service or not, it counts
    [InlineData(Relation.Substitute, true, false, 45, null)]
    [InlineData(Relation.Substitute, false, false, 0, Withheld.NotQualified)]
    [InlineData(Relation.Assistant, true, false, 0, Withheld.AssistantsNotCounted)] // a qualification does not make an assistant's minutes count
    [InlineData(Relation.Assistant, false, true, 0, Withheld.NotCountersigned)]
    public void What_is_given_counts_by_who_gave_it_and_the_reason_stands_beside_it(Relation gave, bool qualified, bool assistantsCount, int counts, Withheld? withheld)
    {
        var verdict = By(new() { As = gave, IsQualified = qualified, AssistantsCount = assistantsCount });

        Assert.Equal((counts, withheld), (verdict.Credited, verdict.Withheld));
        Assert.Equal(withheld is not null, verdict.Notices.Any(n => n.Contains("count", StringComparison.Ordinal)));
    }

    [Fact]
    public void What_was_not_given_withholds_nothing_and_still_names_the_supervisor()
    {
        var verdict = By(new() { As = Relation.Assistant, Supervisor = Supervisor }, Given with { Outcome = VisitOutcome.Offered, Reason = Reason.LearnerUnwell });

        Assert.Equal((0, null, Supervisor), (verdict.Credited, verdict.Withheld, verdict.Supervisor));
    }

    [Fact]
    public void Signature_lets_minutes_count_only_where_the_service_counts_them()
    {
        Assert.Null(new Giver { As = Relation.Assistant, AssistantsCount = true }.Withholds(isCountersigned: true));
        Assert.Equal(Withheld.AssistantsNotCounted, new Giver { As = Relation.Assistant }.Withholds(isCountersigned: true));
    }

    [Fact]
    public void Whoever_is_on_the_team_gives_as_the_team_whatever_else_they_are()
    {
        Assert.Equal(Relation.Team, Giver.AsWhat([Relation.Substitute, Relation.Team]));
        Assert.Equal(Relation.Team, Giver.AsWhat([Relation.CaseManager]));
        Assert.Equal(Relation.Assistant, Giver.AsWhat([Relation.Substitute, Relation.Assistant]));
        Assert.Equal(Relation.Substitute, Giver.AsWhat([Relation.Substitute]));
        Assert.Equal(Relation.Team, Giver.AsWhat([]));
    }

    [Theory]
    [InlineData(Supervisor, Relation.Team, true, true)]
    [InlineData(Manager, Relation.CaseManager, true, false)] // the supervisor is there: it is theirs
    [InlineData(Manager, Relation.CaseManager, false, true)]
    [InlineData(11, Relation.Team, false, false)]
    [InlineData(Assistant, Relation.CaseManager, false, false)] // nobody signs for themselves
    public void Supervisor_of_the_day_signs_and_the_case_manager_once_they_have_left(int person, Relation relation, bool supervisorIsHere, bool may)
    {
        var caller = new Caller(1, person, "", new HashSet<Role> { Role.Provider }, [new(Wren, relation)], new(2026, 9, 15));

        Assert.Equal(may, CountersignRules.MaySign(caller, Wren, Assistant, Supervisor, supervisorIsHere));
    }
}
