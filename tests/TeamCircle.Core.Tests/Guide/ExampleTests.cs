using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Guide;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Tests.Checks;

namespace TeamCircle.Core.Tests.Guide;

/// <summary>Each example of the guide as it stands gives the value that docs/rules.md or a published table has for it.</summary>
public sealed class ExampleTests
{
    [Fact]
    public void Count_is_the_example_of_part_8_of_the_rules()
    {
        var balance = new CountExample().WorkOut().Balance;

        Assert.Equal((420, 390, 120, 30), (balance.Minutes.DueSoFar, balance.Minutes.GivenSoFar, balance.Minutes.PlannedToCome, balance.Minutes.StillToPlan));
        Assert.Equal(Status.Behind, balance.Status);
    }

    [Fact]
    public void Count_follows_what_a_reader_changes()
    {
        Status Of(Action<CountExample> change)
        {
            var example = new CountExample();
            change(example);
            return example.WorkOut().Balance.Status;
        }

        Assert.Equal(Status.OnCourse, Of(e => e.MakeUp = 30));
        Assert.Equal(Status.OnCourse, Of(e => e.NotOwed = 30));
        Assert.Equal(Status.CannotFit, Of(e => (e.Planned, e.MostADay, e.Past, e.Given) = ("", 10, 8, "60 60 60 30 60 60 60 0")));
        Assert.Equal(Status.NotMet, Of(e => (e.Past, e.Planned) = (9, "")));
        Assert.Equal(Status.WithinTolerance, Of(e => (e.Past, e.Planned, e.Given, e.Tolerance) = (9, "", "60 60 60 30 60 60 60 60 60", 6)));
    }

    [Fact]
    public void Short_week_is_the_example_of_part_3_of_the_rules()
    {
        Assert.Equal([(ShortWindow.InFull, 60), (ShortWindow.Prorated, 48), (ShortWindow.AtLeastHalf, 60)], new ShortWeekExample().WorkOut());
        Assert.Equal(25, new ShortWeekExample { Weekly = 50, From = 4 }.WorkOut()[0].Owed);
    }

    [Fact]
    public void Forecast_is_the_example_of_part_9_of_the_rules()
    {
        var forecast = new ForecastExample().WorkOut();

        Assert.Equal((64, 17), (Math.Round(100 * forecast.Chance), Math.Round(forecast.ExpectedShort)));
    }

    [Fact]
    public void Without_help_is_three_of_eight_and_a_refusal_is_no_opportunity()
    {
        var figures = new WithoutHelpExample().WorkOut();

        Assert.Equal((3, 8, 1), (figures.WithoutHelp.Count, figures.WithoutHelp.Of, figures.Refused));
        Assert.Equal(1.5, (double)figures.AveragePrompts!.Value.Over / (double)figures.AveragePrompts.Value.Under);
    }

    [Fact]
    public void Wait_has_the_published_median_and_share()
    {
        var curve = new WaitExample().WorkOut();

        Assert.Equal((21, 9, 23), (curve.Trials, curve.Answered, curve.Median.Value.Value));
        Published.Closely(1 - 0.7529411764706, curve.SharedBy(10).Value);
    }

    [Fact]
    public void Aimline_and_question_are_those_of_the_check_values()
    {
        var example = new AimlineExample();

        Assert.Equal(1.5, example.Line.PerWeek, 1e-12);
        Assert.Equal((Better.Up, Question.ChangeTeaching), (example.Better, example.Question));
        Assert.Equal(Question.RaiseTarget, new AimlineExample { Values = "33 35 36 38 40 41 43 46" }.Question);
        Assert.Equal(Better.Down, new AimlineExample { Start = 10, Target = 2 }.Better);
    }

    [Fact]
    public void Agreement_is_eight_of_ten()
    {
        var agreement = new AgreementExample().WorkOut();

        Assert.Equal((8, 10), (agreement.Agree, agreement.Trials));
    }

    public static TheoryData<object, string> Wrong => new()
    {
        { new CountExample { Given = "sixty" }, "Given" },
        { new CountExample { Given = "60 60 60 60 60 60 60 60" }, "Given" },
        { new CountExample { Past = 10, Planned = "" }, "Past" },
        { new CountExample { Week = 12 }, "Week" },
        { new ForecastExample { Held = 12 }, "Held" },
        { new WithoutHelpExample { Trials = "0 4" }, "Trials" },
        { new WaitExample { Times = "6 quick" }, "Times" },
        { new AimlineExample { Values = "" }, "Values" },
        { new AimlineExample { Target = 30 }, "Target" },
        { new AgreementExample { Second = "+ -" }, "Second" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_cannot_be_worked_with_is_named_at_its_field(object example, string field)
    {
        List<ValidationResult> problems = [];

        Assert.False(Validator.TryValidateObject(example, new ValidationContext(example), problems, validateAllProperties: true));
        Assert.Equal([field], problems.SelectMany(p => p.MemberNames).Distinct());
    }
}
