using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Web.Ui;

/// <summary>What a form offers to choose from, in the words of the glossary.</summary>
public static class Choices
{
    public static IReadOnlyList<SelectListItem> Outcomes { get; } =
        Of([VisitOutcome.Given, VisitOutcome.Offered, VisitOutcome.NotOffered], o => Say.Begin(Say.Outcome(o)));

    public static IReadOnlyList<SelectListItem> Places { get; } = Of(Enum.GetValues<Place>(), p => Say.Begin(Say.Place(p)));

    public static IReadOnlyList<SelectListItem> PlacesOrAny { get; } = [None("Wherever the learner is"), .. Places];

    public static IReadOnlyList<SelectListItem> Formats { get; } = Of(Enum.GetValues<SessionFormat>(), f => Say.Begin(Say.Format(f)));

    public static IReadOnlyList<SelectListItem> Kinds { get; } = Of(Enum.GetValues<ProbeKind>(), Say.ProbeKind);

    public static IReadOnlyList<SelectListItem> Stages { get; } = [None("Not said"), .. Of(Enum.GetValues<Stage>(), s => Say.Begin(Words(s)))];

    public static IReadOnlyList<SelectListItem> States { get; } = [None("Not said"), .. Of(Enum.GetValues<StateOfLearner>(), s => Say.Begin(Core.Words.Of(s)))];

    public static IReadOnlyList<SelectListItem> Decisions { get; } =
        Of(Enum.GetValues<DecisionKind>(), k => Say.Begin(Say.Decision(k)));

    /// <summary>Reasons by side. "Not recorded" is for files; it is offered only where it stands.</summary>
    public static IReadOnlyList<SelectListItem> Reasons(Reason? current)
    {
        var groups = Enum.GetValues<ReasonSide>().ToDictionary(s => s, s => new SelectListGroup { Name = Say.Begin(Say.Side(s)) });
        return
        [
            None("No reason"),
            .. Enum.GetValues<Reason>().Where(r => r != Reason.NotRecorded || current == r)
                .Select(r => new SelectListItem(Say.Begin(Say.Reason(r)), r.ToString()) { Group = groups[ReasonSides.Of(r)] }),
        ];
    }

    /// <summary>People by name, with a first choice for nobody.</summary>
    public static IReadOnlyList<SelectListItem> People(IEnumerable<Colleague> people, string nobody) =>
        [None(nobody), .. people.Select(p => new SelectListItem(p.Name, p.Id.ToString(CultureInfo.InvariantCulture)))];

    internal static SelectListItem None(string words) => new(words, "");

    private static string Words(Stage stage) => Core.Words.Of(stage);

    internal static SelectListItem[] Of<T>(IEnumerable<T> codes, Func<T, string> words) where T : struct, Enum =>
        [.. codes.Select(c => new SelectListItem(words(c), c.ToString()))];
}
