using System.Reflection;
using System.Text.Json;
using System.Text.Json.Nodes;
using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Tests.Routines;

public sealed class RoutineContentTests
{
    private static readonly RoutineStep Plain = new("s9", StepKind.Response, "She looks", []), Slow = Plain with { WaitSeconds = 15 };
    private static readonly Prompt Word = new("p8", "Say it once more"), Hand = new("p9", "Guide the elbow", WaitSeconds: 20);

    [Fact]
    public void Full_card_is_read_back_as_it_was()
    {
        var json = ACard.Herbs.Write();

        var back = RoutineContent.Read(json);

        Assert.Equal(json, back.Write());
        Assert.Equal([3, 5], back.Steps[1].Goals);
        Assert.Equal(ACard.Herbs.Prompts, back.Prompts);
        Assert.Equal(ACard.Herbs.Device, back.Device);
    }

    [Fact]
    public void Full_card_leaves_no_member_out()
    {
        var missing = typeof(RoutineContent).GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.GetValue(ACard.Herbs) is null or false or System.Collections.ICollection { Count: 0 }).Select(p => p.Name);

        Assert.Empty(missing); // or the round trip above would prove nothing about it
    }

    [Fact]
    public void Members_are_camel_case_codes_are_words_and_null_is_left_out()
    {
        var json = JsonNode.Parse((ACard.Herbs with { Say = null }).Write())!;

        Assert.Null(json["say"]);
        Assert.Equal("the small watering can", (string?)json["cue"]);
        Assert.Equal("leastToMost", (string?)json["procedure"]);
        Assert.Equal("under", (string?)json["prompts"]![1]!["physical"]!["hand"]);
        Assert.Equal("powerAndWater", (string?)json["cautions"]![0]!["kind"]);
        Assert.Equal(12, (int?)json["waitSeconds"]);
    }

    [Fact]
    public void Empty_card_is_an_empty_card()
    {
        var empty = RoutineContent.Read("{}");

        Assert.Empty(empty.Steps);
        Assert.Null(empty.WaitSeconds); // there is no default wait
        Assert.Null(empty.Procedure);
    }

    [Theory]
    [InlineData("""{"cue":"a bell","$type":"x"}""")]
    [InlineData("""{"steps":[{"key":"s1","kind":"shown","words":"Show","goals":[],"colour":"red"}]}""")]
    [InlineData("""{"steps":[{"key":"s1","kind":"shown","goals":[]}]}""")] // words are missing
    [InlineData("""{"steps":[{"key":"s1","kind":1,"words":"Show","goals":[]}]}""")]
    [InlineData("""{"procedure":"handOverHand"}""")]
    [InlineData("""{"prompts":null}""")]
    [InlineData("""{"cue":"a bell","cue":"a spoon"}""")]
    [InlineData("null")]
    [InlineData("")]
    public void What_the_card_does_not_know_is_refused(string json) => Assert.Throws<JsonException>(() => RoutineContent.Read(json));

    [Fact]
    public void Wait_is_the_steps_then_the_prompts_then_the_routines_and_never_made_up()
    {
        var card = new RoutineContent { Procedure = PromptProcedure.ConstantDelay, WaitSeconds = 10 };

        Assert.Equal(10, card.WaitBefore(Plain, Word));
        Assert.Equal(20, card.WaitBefore(Plain, Hand));
        Assert.Equal(15, card.WaitBefore(Slow, Hand));
        Assert.Null((card with { WaitSeconds = null }).WaitBefore(Plain, Word));
        Assert.Equal(0, (card with { Procedure = PromptProcedure.Simultaneous }).WaitBefore(Slow, Hand));
    }
}
