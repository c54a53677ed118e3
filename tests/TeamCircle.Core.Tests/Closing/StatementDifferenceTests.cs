using NodaTime;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Tests.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Closing;

/// <summary>What differs between two editions, worked by hand: 60 minutes a week over nine weeks owe 540.</summary>
public sealed class StatementDifferenceTests
{
    private static readonly StatementVisit Earlier = Visit(8, 9, "09:00", "10:00"), Kept = Visit(16, 9, "09:00", "09:30");

    private static readonly StatementDecision Decided = new(
        new(2026, 8, 25), new(60, 0), DecisionKind.NotOwed, new(2026, 10, 21), ["Marisol Quenby", "Bram Nakamura"], null, new(2026, 10, 22), null, "She was in hospital.");

    private static StatementVisit Visit(int day, int month, string start, string end, VisitOutcome outcome = VisitOutcome.Given) =>
        new(new(2026, month, day), 0, true, outcome, "Odalys Ferreira", start, end);

    private static CommitmentCase Case(params (StatementVisit Visit, int Minutes)[] given) => new()
    {
        Calendar = new ALine().Calendar,
        Periods = [ALine.FirstPeriod],
        Period = ALine.FirstPeriod,
        Plan = ALine.Year,
        Promise = new ALine().Promise,
        Policy = Policy.Default,
        Given = [.. given.Select(g => new Entry(Day.Of(g.Visit.Day), g.Minutes))],
        Decisions = [],
        Planned = [],
        OtherBusy = [],
        AsOf = Day.Of(new LocalDate(2026, 10, 20)),
        DailyLimit = null,
    };

    private static (SealedLine, StatementLine) Line(CommitmentCase inputs, StatementVisit[] given, int service = 5, StatementVisit[]? notGiven = null, StatementDecision[]? decisions = null)
    {
        var json = CanonicalJson.Write(writer => CommitmentCaseJson.Write(writer, inputs));
        return (new(0, service, null, null, json, SealedFigures.Answer(json)), new("V", [], [], given, notGiven ?? [], decisions ?? [], [])
        {
            Service = new(Discipline.Vision, ServiceKind.Direct, Place.Home, SessionFormat.Individual),
        });
    }

    private static IReadOnlyList<LineDifference> Between((SealedLine, StatementLine)[] was, (SealedLine, StatementLine)[] now) =>
        StatementDifference.Of(ComparedLine.Of([.. was.Select(l => l.Item1)], [.. was.Select(l => l.Item2)]), ComparedLine.Of([.. now.Select(l => l.Item1)], [.. now.Select(l => l.Item2)]));

    [Fact]
    public void Figures_name_the_visits_and_decisions_that_they_came_from()
    {
        var (shorter, late) = (Earlier with { End = "09:45", Corrected = true, EnteredAfter = 43 }, Visit(23, 9, "09:00", "09:45") with { EnteredAfter = 28 });
        var was = Line(Case((Earlier, 60), (Kept, 30)), [Earlier, Kept]);
        var inputs = Case((shorter, 45), (Kept, 30), (late, 45)) with { Decisions = [new(Day.Of(Decided.Day), 60, Decision.ByLength, DecisionKind.NotOwed)] };
        var now = Line(inputs, [shorter, Kept, late], decisions: [Decided]);

        var line = Assert.Single(Between([was], [now]));

        // 540 - 60 = 480 due; 45 + 30 + 45 = 120 given; 480 - 120 = 360 not given.
        Assert.Equal(
            [new("notOwed", 0, 60), new("due", 540, 480), new("given", 90, 120), new("lack", 450, 360), new("undecided", 450, 360)], line.Figures);
        Assert.Equal([new(shorter, 60, 45), new(late, null, 45)], line.Visits);
        Assert.Equal([new DecisionChange(Decided, true)], line.Decisions);
        Assert.Empty(line.Bases);
        Assert.Null(line.Status);

        var back = Assert.Single(Between([now], [was]));
        Assert.Equal([new(Earlier, 45, 60), new(late, 45, null)], back.Visits);
        Assert.Equal([new DecisionChange(Decided, false)], back.Decisions);
    }

    [Fact]
    public void Editions_of_the_same_differ_in_nothing_though_they_were_sealed_on_other_days()
    {
        var first = Line(Case((Kept, 30)), [Kept], decisions: [Decided]);
        var second = Line(Case((Kept, 30)) with { AsOf = Day.Of(new LocalDate(2026, 11, 3)) }, [Kept], decisions: [Decided with { People = [.. Decided.People] }]);

        Assert.Empty(Between([first], [second]));
    }

    [Fact]
    public void A_visit_that_moved_or_was_not_given_after_all_is_one_corrected_visit()
    {
        var moved = Kept with { Start = "14:00", End = "14:30", Corrected = true };
        var (line, offered) = (Line(Case((Kept, 30)), [Kept]), Visit(16, 9, "09:00", "09:30", VisitOutcome.Offered));

        Assert.Equal([new(moved, 30, 30)], Assert.Single(Between([line], [Line(Case((moved, 30)), [moved])])).Visits);
        Assert.Equal([new(offered, 30, 0)], Assert.Single(Between([line], [Line(Case(), [], notGiven: [offered])])).Visits);
    }

    [Fact]
    public void Two_visits_of_one_day_and_person_are_told_apart()
    {
        var (morning, noon) = (Kept, Kept with { Start = "12:00", End = "12:30" });
        var was = Line(Case((morning, 30), (noon, 30)), [morning, noon]);
        var later = noon with { End = "12:45" };

        Assert.Equal([new(later, 30, 45)], Assert.Single(Between([was], [Line(Case((morning, 30), (later, 45)), [morning, later])])).Visits);
        Assert.Equal([new(morning, 30, null)], Assert.Single(Between([was], [Line(Case((noon, 30)), [noon])])).Visits);
    }

    [Fact]
    public void What_a_line_rests_on_is_named_and_lines_come_and_go()
    {
        var was = Line(Case((Kept, 30)), [Kept]);
        var inputs = Case((Kept, 30));
        var more = Line(inputs with { Promise = new(inputs.Promise.Every, inputs.Promise.Dates, new PromiseVersion(ALine.Year.First, 90)), Policy = inputs.Policy with { TolerancePercent = 5 } }, [Kept]);
        var brought = Line(inputs with { BroughtForward = [new(Day.Of(new LocalDate(2026, 8, 14)), Day.Of(new LocalDate(2026, 8, 14)), new(30, 0), default, default) { IsFromFile = true }] }, [Kept]);

        Assert.Equal([LineBasis.Promise, LineBasis.Policy], Assert.Single(Between([was], [more])).Bases);
        Assert.Equal([LineBasis.BroughtForward], Assert.Single(Between([was], [brought])).Bases);
        var cameAndWent = Between([was], [Line(Case((Kept, 30)), [Kept], service: 6)]);
        Assert.Equal([(false, true), (true, false)], cameAndWent.Select(d => (d.Was is not null, d.Is is not null)));
    }

    [Fact]
    public void A_status_that_changed_is_told()
    {
        (StatementVisit, int)[] all = [.. Enumerable.Range(0, 9).Select(week => (Visit(17, 8, "09:00", "10:00") with { Day = new LocalDate(2026, 8, 17).PlusWeeks(week) }, 60))];
        var met = Line(Case(all), [.. all.Select(v => v.Item1)]);
        var not = Line(Case(all[1..]), [.. all[1..].Select(v => v.Item1)]);

        Assert.Equal(("notMet", "met"), Assert.Single(Between([not], [met])).Status);
    }

    [Fact]
    public void Facts_with_nothing_that_may_be_missing_are_read_back_as_they_were_written()
    {
        var facts = new StatementFacts(
            "Tallowfern", "Wren Belmares", "TF07", "Period 1", new(2026, 8, 17), new(2026, 10, 16), "Marisol Quenby",
            [
                new("V", [], [new(new(2026, 8, 17), 60)], [new(new(2026, 9, 16), 0, true, VisitOutcome.Given)], [],
                    [new(new(2026, 8, 25), new(60, 0), DecisionKind.NotOwed, new(2026, 10, 21), ["Marisol Quenby"])], [new(new(2026, 8, 14), new(30, 0), new(10, 0), [new(new(2026, 9, 1), new(20, 0))], [])])
                {
                    Goal = new("Hands", "Keeps an open hand on the towel."),
                },
            ],
            [new(AwardSource.Settlement, "Settlement, page 2", new(AwardUnit.Minutes, 120, 30, 0), Discipline.Vision, new(2026, 8, 17), [])], []);

        var written = CanonicalJson.Of(facts);

        Assert.Equal(written, CanonicalJson.Of(StatementFacts.Read(written)));
    }
}
