using NodaTime;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Reports;

namespace TeamCircle.Core.Tests.Reports;

/// <summary>What a progress report holds and when it may be signed.</summary>
public sealed class ReportTests
{
    private static readonly GoalFacts Press = new(
        7, "Switch use", "Wren presses the switch.", Measure.ResponsesOf, Better.Up, 9, 8, 8, new(2027, 5, 14), new(3, 4, 8), 2,
        Level.Of([new(new(2026, 8, 20), 2, 8)]), Level.Of([new(new(2026, 9, 20), 4, 8, "quiet alert"), new(new(2026, 9, 27), 6, 8), new(new(2026, 10, 4), 5, 8)]));

    private static readonly GoalSaid Said = new(7, ReportStatus.EnoughProgress, null, "She presses when the can is shown.");

    private static ReportContent Content(params GoalSaid[] goals) => new(1, new(new(2026, 10, 16), [Press]), goals);

    [Theory]
    [InlineData(new[] { 5 }, 5)]
    [InlineData(new[] { 5, 6 }, 5.5)]
    [InlineData(new[] { 9, 1, 5, 6 }, 5)]
    [InlineData(new[] { 0, 8, 8, 1 }, 8)]
    public void Level_is_the_middle_value_of_the_last_three_points_at_most(int[] values, double middle)
    {
        var level = Level.Of([.. values.Select((v, i) => new LevelPoint(new LocalDate(2026, 9, 1).PlusDays(i), v))])!;

        Assert.Equal((decimal)middle, level.Middle);
        Assert.Equal(values.TakeLast(3).Select(v => (decimal)v), level.Points.Select(p => p.Value));
    }

    [Fact]
    public void Nothing_recorded_is_no_level_and_no_change()
    {
        Assert.Null(Level.Of([]));
        Assert.Null((Press with { Now = null }).Change);
        Assert.Null((Press with { Before = null, Baseline = null }).Change);
    }

    [Fact]
    public void Change_counts_from_the_level_before_the_period_and_else_from_the_baseline()
    {
        Assert.Equal(3, Press.Change);
        Assert.Equal(4, (Press with { Before = null, Baseline = 1 }).Change);
    }

    [Fact]
    public void Facts_come_back_as_they_were_written()
    {
        var facts = new ReportFacts(new(2026, 10, 16), [Press, Press with { Target = null, TargetDay = null, Criterion = null, Baseline = null, Before = null, Now = null }]);

        var read = ReportFacts.Read(facts.Write());

        Assert.Equal(facts.Write(), read.Write());
        Assert.Equal("quiet alert", read.Goals[0].Now!.Points[0].Conditions);
        Assert.Null(read.Goals[1].Now);
    }

    [Fact]
    public void Hash_changes_with_every_word_figure_and_edition()
    {
        var content = Content(Said);
        ReportContent[] others =
        [
            Content(Said with { Words = "She presses when the can is shown" }), Content(Said with { Status = ReportStatus.Maintained }), Content(Said with { Reason = "" }),
            content with { Edition = 2 }, content with { Facts = content.Facts! with { AsOf = new(2026, 10, 17) } }, content with { Facts = null },
            content with { Facts = new(new(2026, 10, 16), [Press with { ProbesDone = 9 }]) },
        ];

        Assert.Equal(content.Hash(), Content(Said with { Words = "She presses when the can is shown." }).Hash());
        Assert.Equal(others.Length + 1, others.Append(content).Select(c => c.Hash()).Distinct().Count());
        Assert.Matches("^[0-9a-f]{64}$", content.Hash());
    }

    [Fact]
    public void Hash_is_that_of_facts_that_were_read_back()
    {
        var content = Content(Said);

        Assert.Equal(content.Hash(), (content with { Facts = ReportFacts.Read(content.Facts!.Write()) }).Hash());
    }

    [Fact]
    public void Goal_that_was_not_worked_on_needs_a_reason_and_no_paragraph()
    {
        Assert.Equal(["Reason"], ReportRules.CheckJoined(new(7, ReportStatus.NotWorkedOn)).Select(p => p.Field));
        Assert.Empty(ReportRules.CheckJoined(new(7, ReportStatus.NotWorkedOn, "In hospital.")));
        Assert.Equal(["Status", "Words"], ReportRules.CheckJoined(new(7)).Select(p => p.Field));
        Assert.Equal(["Words"], ReportRules.CheckJoined(Said with { Words = new('a', ReportRules.LongestWords + 1) }).Select(p => p.Field));
        Assert.Empty(ReportRules.CheckJoined(Said));
    }

    [Fact]
    public void Report_is_signed_as_a_whole()
    {
        Assert.Empty(ReportRules.CheckReady(Content(Said)));
        Assert.Single(ReportRules.CheckReady(Content(Said, new GoalSaid(8))));
        Assert.Equal(2, ReportRules.CheckReady(new(1, null, [new(8), new(9)])).Count());
    }

    [Fact]
    public void Case_manager_finishes_when_every_owner_signed_what_stands_or_says_why_not()
    {
        ReportOwner[] owners = [new(1, [7], true), new(2, [7], false), new(3, [8], false)];

        Assert.Equal(["Without"], ReportRules.CheckFinish(Content(Said), owners, manager: 3, null).Select(p => p.Field));
        Assert.Empty(ReportRules.CheckFinish(Content(Said), owners, manager: 3, "Bram has left; his successor has not begun."));
        Assert.Empty(ReportRules.CheckFinish(Content(Said), owners.Where(o => o.PersonId != 2), manager: 3, null));
    }

    [Theory]
    [InlineData(Relation.Team, 5, true)]
    [InlineData(Relation.Team, 6, false)]
    [InlineData(Relation.CaseManager, 6, true)]
    [InlineData(Relation.Substitute, 5, false)]
    [InlineData(Relation.Family, 5, false)]
    public void Owners_and_the_case_manager_write(Relation relation, int owner, bool may)
    {
        var caller = new Caller(1, 5, "Odalys", new HashSet<Role> { Role.Provider }, [new(9, relation)], new(2026, 10, 16));

        Assert.Equal(may, ReportRules.MayWrite(caller, 9, [owner]));
    }
}
