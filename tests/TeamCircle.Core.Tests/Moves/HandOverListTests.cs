using NodaTime;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Tests.Moves;

/// <summary>What the list of a last day holds: Wednesday 7 October 2026, seen on Friday 2 October and after it.</summary>
public sealed class HandOverListTests
{
    private const int Wren = 1, Leaver = 7, Priya = 8, Marisol = 9;
    private static readonly LocalDate LastDay = new(2026, 10, 7), Friday = new(2026, 10, 2);

    [Fact]
    public void Visits_are_to_be_logged_up_to_the_last_day_and_handed_over_after_it()
    {
        Guid[] ids = [.. Enumerable.Range(1, 5).Select(i => new Guid(i, 0, 0, new byte[8]))];
        HandOverFacts facts = new()
        {
            Visits =
            [
                new(ids[0], Wren, new(2026, 9, 29), IsService: true), new(ids[1], Wren, new(2026, 9, 30), IsService: false),
                new(ids[2], Wren, Friday, IsService: true), new(ids[3], Wren, LastDay, IsService: true), new(ids[4], Wren, new(2026, 10, 8), IsService: false),
            ],
        };

        Assert.Equal([(HandOverKind.VisitNotLogged, ids[0]), (HandOverKind.VisitToCome, ids[4])], HandOverList.Of(facts, LastDay, Friday).Select(i => (i.Kind, i.Visit!.Value)));
        Assert.Equal([ids[0], ids[2], ids[3], ids[4]], HandOverList.Of(facts, LastDay, new(2026, 10, 8)).Select(i => i.Visit!.Value));
    }

    [Fact]
    public void What_ends_by_the_last_day_is_left_out_and_what_is_open_never_is()
    {
        HandOverFacts facts = new()
        {
            Theirs =
            [
                new(HandOverKind.Service, Wren, 1, LastDay), new(HandOverKind.Service, Wren, 2, LastDay.PlusDays(1)), new(HandOverKind.CaseManagement, Wren, 3, null),
                new(HandOverKind.Goal, Wren, 4, new(2026, 9, 1)),
            ],
            Waiting = [new(HandOverKind.SetAside, null, 5)],
        };

        Assert.Equal([(HandOverKind.SetAside, 5), (HandOverKind.Service, 2), (HandOverKind.CaseManagement, 3)], HandOverList.Of(facts, LastDay, Friday).Select(i => (i.Kind, i.Id!.Value)));
        Assert.Empty(HandOverList.Of(new(), LastDay, Friday));
    }

    [Fact]
    public void Assistant_is_handed_over_and_what_they_logged_before_is_to_be_signed_whenever_it_was()
    {
        HandOverFacts facts = new()
        {
            Theirs = [new(HandOverKind.Supervision, Wren, 6, null), new(HandOverKind.Supervision, Wren, 7, LastDay)],
            Waiting = [new(HandOverKind.Countersign, Wren, Visit: new(1, 0, 0, new byte[8]), On: LastDay), new(HandOverKind.Countersign, Wren, Visit: new(2, 0, 0, new byte[8]), On: new(2026, 9, 1))],
        };

        var list = HandOverList.Of(facts, LastDay, Friday);

        Assert.Equal([(HandOverKind.Countersign, new LocalDate(2026, 9, 1)), (HandOverKind.Countersign, LastDay), (HandOverKind.Supervision, null)], list.Select(i => (i.Kind, i.On)));
        Assert.Equal([false, false, true], list.Select(i => HandOverList.IsOfLearner(i.Kind)));
    }

    [Fact]
    public void Successor_gives_services_begins_after_the_last_day_and_is_somebody_else()
    {
        var roles = new Dictionary<int, IReadOnlySet<Role>> { [Priya] = new HashSet<Role> { Role.Provider }, [Marisol] = new HashSet<Role> { Role.CaseManager }, [Leaver] = new HashSet<Role> { Role.Provider } };
        string[] Fields(int? to, int? manager, LocalDate? from) => [.. LastDayRules.CheckHandOver(Leaver, to, manager, from, LastDay, roles).Select(p => p.Field)];

        Assert.Empty(Fields(Priya, Marisol, LastDay.PlusDays(1)));
        Assert.Empty(Fields(null, null, null));
        Assert.Equal(["To", "Manager", "FromDay"], Fields(Leaver, Priya, LastDay));
        Assert.True(LastDayRules.MayUndo(LastDay.PlusDays(1), LastDay));
        Assert.False(LastDayRules.MayUndo(LastDay.PlusDays(1), LastDay.PlusDays(1)));
    }

    // 34 CFR 300.323(e)(1) lets an agency adopt a plan of the same state; (f) knows of comparable services, an evaluation if necessary, and a new plan.
    [Fact]
    public void Plan_from_another_state_is_replaced_but_never_adopted()
    {
        string[] Fields(MoveInStatus? status, bool other) => [.. MoveRules.CheckOutcome(status, other, Friday, Friday, "Meeting with the parents").Select(p => p.Field)];

        Assert.Empty(Fields(MoveInStatus.Adopted, other: false));
        Assert.Empty(Fields(MoveInStatus.Replaced, other: true));
        Assert.Equal(["Status"], Fields(MoveInStatus.Adopted, other: true));
        Assert.Equal(["Status"], Fields(MoveInStatus.Comparable, other: false));
    }
}
