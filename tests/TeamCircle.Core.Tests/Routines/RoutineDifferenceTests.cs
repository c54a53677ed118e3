using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

public sealed class RoutineDifferenceTests
{
    private static IReadOnlyList<CardChange> ToHerbs(RoutineContent after) => RoutineDifference.Between(ACard.Herbs, after, goal => $"G{goal}");

    [Fact]
    public void Same_content_differs_in_nothing() => Assert.Empty(ToHerbs(RoutineContent.Read(ACard.Herbs.Write())));

    [Fact]
    public void Each_member_of_the_card_is_looked_at()
    {
        var blind = typeof(RoutineContent).GetProperties().Where(property =>
        {
            var other = ACard.Herbs with { };
            property.SetValue(other, property.GetValue(new RoutineContent()));
            return ToHerbs(other).Count == 0;
        }).Select(p => p.Name);

        Assert.Empty(blind);
    }

    [Fact]
    public void Texts_codes_and_figures_are_told_in_words()
    {
        var changes = ToHerbs(ACard.Herbs with { Light = null, Say = "Water them.", Procedure = PromptProcedure.ConstantDelay, WaitSeconds = 1, Flashing = false, Appliance = new("small pump", ApplianceKind.Latch) });

        Assert.Equal(
        [
            new("Words to say", "Water the herbs.", "Water them."),
            new("Light", "curtain drawn, one lamp behind her", null),
            new("What it sets going", "small pump: timed, stops by itself after 5 seconds", "small pump: latched, runs until the switch is pressed again"),
            new("Flashing", "something flashes or flickers", null),
            new("Procedure", "least to most", "constant time delay"),
            new("Wait before each prompt", "12 seconds", "1 second"),
        ], changes);
    }

    [Fact]
    public void Steps_are_found_by_their_keys()
    {
        var steps = ACard.Herbs.Steps;

        var changes = ToHerbs(ACard.Herbs with { Steps = [steps[1] with { Words = "She presses with the elbow", Goals = [3] }, steps[0], new("s4", StepKind.Shown, "Dry the tray", [])] });

        Assert.Equal(
        [
            new("Step 3", "Watch the water (waiting)", null),
            new("Step 1", "She presses (response asked); for G3, G5; wait 15 seconds", "She presses with the elbow (response asked); for G3; wait 15 seconds"),
            new("Step 3", null, "Dry the tray (shown by the adult)"),
            new("Order of the steps", "1. Show the can; 2. She presses", "1. She presses with the elbow; 2. Show the can"),
        ], changes);
    }

    [Fact]
    public void Cautions_come_first_and_prompts_tell_how_they_touch()
    {
        var prompts = ACard.Herbs.Prompts;

        var changes = ToHerbs(ACard.Herbs with { Cue = "a bell", Cautions = [], Prompts = [prompts[0], prompts[1] with { Physical = new(HandPlace.Over, "hand", BodySide.Both, "stops when she pulls away") }] });

        Assert.Equal(["Caution 1", "Object cue", "Prompt 2"], changes.Select(c => c.Part));
        Assert.Equal("Guide the elbow; hand under hand, left elbow; stops when she pulls away; wait 20 seconds", changes[2].Before);
        Assert.Equal("Guide the elbow; hand over hand, hand on both sides; stops when she pulls away; wait 20 seconds", changes[2].After);
    }
}
