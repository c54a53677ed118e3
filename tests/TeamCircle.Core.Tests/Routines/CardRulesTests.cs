using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

public sealed class CardRulesTests
{
    private static readonly RoutineStep Asks = new("s1", StepKind.Response, "She presses", []);

    private static string[] Fields(RoutineContent card) => [.. CardRules.Check(card, new HashSet<int> { 3, 5 }).Select(p => p.Field)];

    [Fact]
    public void Full_card_and_empty_card_may_be_saved()
    {
        Assert.Empty(Fields(ACard.Herbs));
        Assert.Empty(Fields(new()));
    }

    [Theory]
    [InlineData(null)]
    [InlineData(" ")]
    public void Flashing_materials_ask_about_seizures_first(string? answered) =>
        Assert.Equal(["SeizuresAsked"], Fields(new() { Flashing = true, SeizuresAsked = answered }));

    [Fact]
    public void Wait_is_asked_for_where_a_prompt_would_come_without_one()
    {
        var card = new RoutineContent { Procedure = PromptProcedure.ConstantDelay, Prompts = [new("p1", "Once more"), new("p2", "Point", WaitSeconds: 9)] };

        Assert.Empty(Fields(card)); // no step asks for anything yet
        Assert.Equal(["WaitSeconds"], Fields(card with { Steps = [Asks] }));
        Assert.Empty(Fields(card with { Steps = [Asks with { WaitSeconds = 0 }] }));
        Assert.Empty(Fields(card with { Steps = [Asks], Procedure = PromptProcedure.Simultaneous }));
    }

    [Theory]
    [InlineData(-1, true)]
    [InlineData(0, false)]
    [InlineData(300, false)]
    [InlineData(301, true)]
    public void Wait_is_at_most_five_minutes(int seconds, bool refused) =>
        Assert.Equal(refused ? ["WaitSeconds"] : [], Fields(new() { WaitSeconds = seconds }));

    [Fact]
    public void Procedure_and_prompts_belong_together()
    {
        Assert.Equal(["Procedure"], Fields(new() { Prompts = [new("p1", "Once more")] }));
        Assert.Equal(["Prompts"], Fields(new() { Procedure = PromptProcedure.MostToLeast }));
    }

    [Fact]
    public void Physical_prompt_names_the_part_and_when_the_adult_lets_go()
    {
        var card = new RoutineContent { Procedure = PromptProcedure.LeastToMost, Prompts = [new("p1", "Guide", new(HandPlace.Under, "", BodySide.Left, " "))] };

        Assert.Equal(["Prompts[0].Physical.Part", "Prompts[0].Physical.Stops"], Fields(card));
    }

    [Fact]
    public void What_was_begun_is_finished_or_removed()
    {
        var card = new RoutineContent
        {
            Device = new("", "elbow"),
            Appliance = new("", ApplianceKind.Timed),
            Cautions = [new("c1", CautionKind.Skin, "")],
            Steps = [new("s1", StepKind.Shown, "", [3]), new("s2", StepKind.Shown, "Show", [4])],
        };

        Assert.Equal(["Device.Name", "Appliance.Name", "Appliance.AutoOffSeconds", "Cautions[0].Text", "Steps[0].Words", "Steps[1].Goals"], Fields(card));
    }

    [Fact]
    public void Card_keeps_to_one_sheet()
    {
        Assert.Equal(["Light"], Fields(new() { Light = new('x', 401) }));
        Assert.Equal(["Cue"], Fields(new() { Cue = new('x', 201) }));
        Assert.Equal(["Steps"], Fields(new() { Steps = [.. Enumerable.Range(0, 21).Select(i => new RoutineStep($"s{i}", StepKind.Waiting, "Rest", []))] }));
    }

    [Fact]
    public void Keys_stay_and_are_never_given_twice()
    {
        var first = CardKeys.Give(new() { Steps = [Step(""), Step("")], Prompts = [new("", "Once more")] }, []);
        Assert.Equal(["s1", "s2"], first.Steps.Select(s => s.Key));
        var second = CardKeys.Give(first with { Steps = [first.Steps[0]] }, [first]);

        var third = CardKeys.Give(second with { Steps = [Step(""), second.Steps[0], Step("s1"), Step("s9")] }, [first, second]);

        Assert.Equal(["s3", "s1", "s4", "s5"], third.Steps.Select(s => s.Key)); // s2 was removed, s1 stands twice, s9 never was
        Assert.Equal("p1", third.Prompts[0].Key);

        static RoutineStep Step(string key) => new(key, StepKind.Shown, "Show", []);
    }
}
