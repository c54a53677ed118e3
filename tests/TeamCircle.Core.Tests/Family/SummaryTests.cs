using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Family;

/// <summary>The draft of a summary, made from facts in both languages.</summary>
public sealed class SummaryTests
{
    private static readonly SummaryFacts Facts = new(
        [Given(14), Given(16) with { Outcome = VisitOutcome.Offered, Given = 0, Reason = Reason.LearnerUnwell }],
        [new("Watering the herbs", 2)],
        [
            new(7, "Presses the switch within 10 s in 80 % of trials.", new("Wren turns on the water.", "Wren abre el agua."), Measure.PercentIndependent, Better.Up,
                [new(new(2026, 9, 14), 25, 8), new(new(2026, 9, 21), 37.5m, 8)]),
            new(8, "Looks at the bowl.", new(), Measure.TimeToRespond, Better.Down, []),
        ],
        [Given(28) with { Outcome = null, Given = 0 }, Given(30) with { Outcome = null, Given = 0 }],
        [new("Warm towel hello", [IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday], [], "her mother", "the striped towel")]);

    private static FamilyVisit Given(int day) => new(
        new(2026, 9, day), new(9, 30), 45, VisitKind.Service, Discipline.Vision, "Odalys Ferreira", Place.Home, false, false, VisitOutcome.Given, null, 45, null);

    [Fact]
    public void Draft_says_each_fact_in_both_languages_and_nothing_that_only_a_person_can_say()
    {
        var draft = SummaryDraft.Of(Facts, "Wren", "Marisol Quenby");

        Assert.Equal("Monday 14 September: Odalys Ferreira gave 45 minutes of vision teaching.\nWednesday 16 September: Odalys Ferreira was there for vision teaching, but it did not take place: Wren was ill.", draft.Visits.English);
        Assert.StartsWith("Lunes 14 de septiembre: Odalys Ferreira dio 45 minutos", draft.Visits.Spanish, StringComparison.Ordinal);
        Assert.Equal(new Both("Watering the herbs, in 2 visits.", "Watering the herbs, en 2 visitas."), draft.Practised);
        Assert.Equal("Monday 28 September, 9:30 am: Odalys Ferreira comes for vision teaching.", draft.Next.English);
        Assert.Equal("Warm towel hello: on Mondays and Thursdays, with her mother. It begins with the striped towel.", draft.Home.English);
        Assert.Equal("Warm towel hello: los lunes y los jueves.", draft.Home.Spanish);
        Assert.True(draft.Hers.IsEmpty);
    }

    [Fact]
    public void Goal_is_said_in_its_plain_words_and_else_in_the_plans_with_a_percent_as_its_count()
    {
        var goals = SummaryDraft.Of(Facts, "Wren", null).Goals;

        Assert.Equal(new Both("Wren turns on the water.", "Wren abre el agua."), goals[0].Words);
        Assert.Equal("At the last check, on 21 September: Wren with no help, 3 of 8 tries.", goals[0].Progress.English);
        Assert.Equal("En la última observación, el 21 de septiembre: Wren sin ayuda, 3 de 8 intentos.", goals[0].Progress.Spanish);
        Assert.Equal(new Both("Looks at the bowl."), goals[1].Words);
        Assert.Equal("There was no check in this time.", goals[1].Progress.English);
    }

    [Fact]
    public void Many_visits_are_told_together_by_who_gave_them_and_what_was_not_given_by_itself()
    {
        FamilyVisit[] visits = [.. Enumerable.Range(1, 13).Select(Given), Given(20) with { IsCalledOff = true, Outcome = null, Given = 0, Reason = Reason.FamilyAway }];

        var lines = SummaryDraft.Of(Facts with { Visits = visits }, "Wren", null).Visits.English!.Split('\n');

        Assert.Equal("Odalys Ferreira gave 585 minutes of vision teaching in 13 visits: 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and 13 September.", lines[0]);
        Assert.Equal(["Sunday 20 September: Odalys Ferreira did not come: the family was away."], lines[1..]);
    }

    [Fact]
    public void Content_comes_back_as_it_was_written_and_a_missing_language_shows_the_other()
    {
        var content = SummaryDraft.Of(Facts, "Wren", null) with { Hers = new("She chose the blue cup."), SeenBy = "Bram Nakamura" };

        Assert.Equal(content.Write(), SummaryContent.Read(content.Write()).Write());
        Assert.Equal(("She chose the blue cup.", Language.English), SummaryContent.Read(content.Write()).Hers.In(Language.Spanish));
        Assert.Null(new Both().In(Language.Spanish));
    }

    [Fact]
    public void Reading_level_is_of_what_people_write_and_not_of_names_and_days()
    {
        var levels = SummaryRules.Levels(SummaryDraft.Of(Facts, "Wren", null) with { Next = new("Monday 28 September: Odalys.\nWe meet about the plan.") }).ToDictionary(l => l.Field, l => l.Level);

        Assert.False(levels.ContainsKey("Visits"));
        Assert.Equal(ReadingLevel.Of("We meet about the plan.").Grade, levels["Next"].Grade);
        Assert.True(levels["Goals[0].Words"].Grade < ReadingLevel.Highest);
    }

    [Fact]
    public void Summary_is_ready_once_it_says_something_that_was_the_childs_own_and_who_saw_it()
    {
        var draft = SummaryDraft.Of(Facts, "Wren", null);

        Assert.Single(SummaryRules.CheckReady(draft));
        Assert.Single(SummaryRules.CheckReady(draft with { Hers = new("She chose the blue cup.") }));
        Assert.Empty(SummaryRules.CheckReady(draft with { Hers = new(Spanish: "Eligió la taza azul."), SeenBy = "Bram Nakamura" }));
    }
}
