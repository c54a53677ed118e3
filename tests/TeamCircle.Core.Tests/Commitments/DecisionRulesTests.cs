using System.Collections.Frozen;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class DecisionRulesTests
{
    private const int CaseManager = 1, Administrator = 2, Director = 3;

    private static readonly DecisionEntry NotOwed = new(
        new(2026, 9, 15), 30, null, DecisionKind.NotOwed, [CaseManager], new(2026, 9, 22), new(2026, 9, 23), null, "Wanted rest after the fever.");

    private static DecisionSituation At(int lack = 30, int explained = 30, params int[] directors) =>
        new(new(2026, 9, 25), SchoolYear.Weeks, lack, 1, explained, 1) { Directors = directors.ToFrozenSet() };

    private static string[] Fields(DecisionEntry entry, DecisionSituation? at = null) =>
        [.. DecisionRules.Check(entry, at ?? At()).Problems.Select(p => p.Field)];

    [Fact]
    public void One_person_may_decide_not_owed_what_the_child_or_family_explains() => Assert.Empty(Fields(NotOwed));

    [Theory]
    [InlineData(0)] // explained by no visit, or by the agency only
    [InlineData(29)]
    public void Dropping_more_than_is_explained_takes_a_second_person(int explained)
    {
        Assert.Equal(["TookPart"], Fields(NotOwed, At(explained: explained)));
        Assert.Equal(["TookPart"], Fields(NotOwed with { TookPart = [CaseManager, CaseManager] }, At(explained: explained)));
        Assert.Empty(Fields(NotOwed with { TookPart = [CaseManager, Administrator] }, At(explained: explained)));
    }

    [Fact]
    public void Second_person_is_a_director_where_the_agency_has_one()
    {
        var at = At(lack: 30, explained: 0, Director);

        Assert.Equal(["TookPart"], Fields(NotOwed with { TookPart = [CaseManager, Administrator] }, at));
        Assert.Empty(Fields(NotOwed with { TookPart = [CaseManager, Director] }, at));
    }

    [Fact]
    public void Making_up_or_meeting_takes_no_second_person()
    {
        Assert.Empty(Fields(NotOwed with { Kind = DecisionKind.MakeUp, ByDay = new(2026, 10, 16) }, At(explained: 0)));
        Assert.Empty(Fields(NotOwed with { Kind = DecisionKind.Meeting }, At(explained: 0)));
    }

    [Fact]
    public void Session_waived_without_minutes_needs_an_explanation_too()
    {
        var session = NotOwed with { Amount = 0, Sessions = 1 };

        Assert.Empty(Fields(session));
        Assert.Equal(["TookPart"], Fields(session, At() with { SessionsExplainedLeft = 0 }));
    }

    [Fact]
    public void Deciding_more_than_lacks_is_stored_and_said() =>
        Assert.Contains("Only 30 lack", Assert.Single(DecisionRules.Check(NotOwed with { Amount = 45 }, At()).Value!.Notices), StringComparison.Ordinal);

    [Fact]
    public void Family_not_told_is_stored_and_said() =>
        Assert.Contains("not been told", Assert.Single(DecisionRules.Check(NotOwed with { FamilyToldOn = null }, At()).Value!.Notices), StringComparison.Ordinal);

    [Fact]
    public void All_problems_come_at_once() =>
        Assert.Equal(
            ["OnDay", "Amount", "DecidedOn", "FamilyToldOn", "Why", "ByDay", "TookPart"],
            Fields(new(new(2026, 11, 25), 0, null, DecisionKind.MakeUp, [], new(2026, 10, 1), new(2026, 10, 1), null, " ")));

    [Fact]
    public void Nothing_at_all_cannot_be_decided_about()
    {
        Assert.Equal(["Amount"], Fields(NotOwed with { Amount = 0 }));
        Assert.Equal(["Amount"], Fields(NotOwed with { Amount = 0, Sessions = 0 }));
        Assert.Equal(["Amount"], Fields(NotOwed with { Amount = -5 }));
    }

    [Fact]
    public void Only_reasons_of_the_child_the_family_or_nobody_explain() =>
        Assert.Equal(75, DecisionRules.Explained(
        [
            new(30, Reason.LearnerUnwell), new(45, Reason.WeatherOrEmergency), new(30, Reason.ProviderUnwell),
            new(30, Reason.NotRecorded), new(30, Reason.Other), new(30, null), new(-10, Reason.FamilyAway),
        ]));
}
