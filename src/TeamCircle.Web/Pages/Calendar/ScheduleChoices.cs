using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>What the form for a visit offers, in the words of the glossary.</summary>
public sealed record ScheduleChoices(PlanningChoices Choices, Caller Caller)
{
    public bool HasLearners => Choices.Learners.Count > 0;

    /// <summary>Services, then what is none, by learner.</summary>
    public IReadOnlyList<SelectListItem> What
    {
        get
        {
            var groups = Choices.Learners.ToDictionary(l => l.Id, l => new SelectListGroup { Name = l.Name });
            return
            [
                new("Choose", ""),
                .. Choices.Services.Where(s => groups.ContainsKey(s.LearnerId)).OrderBy(s => s.Learner).ThenByDescending(s => s.IsMine)
                    .Select(s => new SelectListItem($"{Say.Discipline(s.Discipline)}, {s.Learner}", $"service:{s.Id}") { Group = groups[s.LearnerId] }),
                .. Choices.Learners.SelectMany(l => Enum.GetValues<VisitKind>().Where(k => k != VisitKind.Service)
                    .Select(k => new SelectListItem($"{Say.VisitKind(k)}, {l.Name}", $"{k}:{l.Id}") { Group = groups[l.Id] })),
            ];
        }
    }

    /// <summary>Who gives it; null for all but case managers, who plan their own visits only.</summary>
    public IReadOnlyList<SelectListItem>? Providers =>
        Choices.Learners.Any(l => l.IsManaged) ? Ui.Choices.People(Others, "Me") : null;

    public IReadOnlyList<SelectListItem> Partners => Ui.Choices.People(Others, "Nobody: given alone");

    public static IReadOnlyList<SelectListItem> Often { get; } =
        [new("Once", nameof(Calendar.Often.Once)), new("By weeks", nameof(Calendar.Often.Weeks)), new("By months", nameof(Calendar.Often.Months))];

    public static IReadOnlyList<SelectListItem> Units { get; } = [new("Weeks", nameof(CadenceUnit.Week)), new("Months", nameof(CadenceUnit.Month))];

    public static IReadOnlyList<SelectListItem> Which { get; } =
        [new("first", "1"), new("second", "2"), new("third", "3"), new("fourth", "4"), new("last", "-1")];

    public static IReadOnlyList<IsoDayOfWeek> Weekdays { get; } =
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday, IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday];

    public static IReadOnlyList<SelectListItem> Places { get; } = [new("As the service promises", ""), .. PlanChoices.Places];

    public static IReadOnlyList<SelectListItem> Formats { get; } = [new("As the service promises", ""), .. PlanChoices.Formats];

    public IReadOnlyList<SelectListItem> AgencyPlaces => Named(Choices.Places);

    /// <summary>The agency's places, after the learner's own.</summary>
    public static IReadOnlyList<SelectListItem> Named(IEnumerable<PlaceShown> places) =>
        [new("The learner's own", ""), .. places.Select(p => new SelectListItem($"{p.Name} ({p.Code})", p.Id.ToString(CultureInfo.InvariantCulture)))];

    /// <summary>Reasons by side, without the choice of none.</summary>
    public static IReadOnlyList<SelectListItem> Reasons { get; } = [new("Choose", ""), .. Ui.Choices.Reasons(null).Skip(1)];

    public static IReadOnlyList<SelectListItem> AwayReasons { get; } =
        [.. Enum.GetValues<AwayReason>().Select(r => new SelectListItem(Say.Begin(Say.Away(r)), r.ToString()))];

    private List<Colleague> Others =>
        [.. Choices.Team.DistinctBy(t => t.PersonId).Where(t => t.PersonId != Caller.PersonId).Select(t => new Colleague(t.PersonId, t.Name))];
}
