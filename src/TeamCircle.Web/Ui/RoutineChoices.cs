using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Ui;

/// <summary>What the forms of a routine's card offer to choose from.</summary>
public static class RoutineChoices
{
    public static IReadOnlyList<SelectListItem> Cautions { get; } = Choices.Of(Enum.GetValues<CautionKind>(), k => Say.Begin(Core.Words.Of(k)));

    public static IReadOnlyList<SelectListItem> Steps { get; } = Choices.Of(Enum.GetValues<StepKind>(), k => Say.Begin(CardWords.Of(k)));

    public static IReadOnlyList<SelectListItem> Procedures { get; } =
        [Choices.None("No prompts are given"), .. Choices.Of(Enum.GetValues<PromptProcedure>(), p => Say.Begin(CardWords.Of(p)))];

    public static IReadOnlyList<SelectListItem> Hands { get; } =
        [Choices.None("The adult does not touch the learner"), .. Choices.Of(Enum.GetValues<HandPlace>(), h => $"Hand {Core.Words.Of(h)} the learner's")];

    public static IReadOnlyList<SelectListItem> Sides { get; } = Choices.Of(Enum.GetValues<BodySide>(), s => Say.Begin(Core.Words.Of(s)));

    public static IReadOnlyList<SelectListItem> Appliances { get; } =
        Choices.Of(Enum.GetValues<ApplianceKind>(), k => k == ApplianceKind.Timed ? "Timed: stops by itself" : "Latched: runs until the switch is pressed again");

    public static IReadOnlyList<SelectListItem> Pictures { get; } = Choices.Of(Enum.GetValues<PictureKind>(), k => Say.Begin(CardView.Picture(k)));

    public static IReadOnlyList<SelectListItem> Disciplines(IEnumerable<Discipline> disciplines) => Choices.Of(disciplines, Say.Discipline);
}
