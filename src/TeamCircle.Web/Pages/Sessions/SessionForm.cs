using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Sessions;
using TeamCircle.Web.Pages.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Sessions;

/// <summary>What the fields about a visit need to know beside what is typed in them.</summary>
/// <param name="Planned">What was scheduled; null where nobody had scheduled it.</param>
/// <param name="EndMayBeEmpty">Whether an empty end means that it ended as planned.</param>
/// <param name="AsksDay">Whether the day can be chosen.</param>
/// <param name="CoTreatment">How co-treatment credits the service; null where the service is not chosen yet.</param>
/// <param name="Partners">With whom it can have been given together.</param>
/// <param name="Providers">Who can have given it, for a case manager; null: only the reader.</param>
public sealed record SessionForm(
    PlannedTimes? Planned, bool EndMayBeEmpty, bool AsksDay, CoTreatment? CoTreatment,
    IReadOnlyList<SelectListItem> Partners, IReadOnlyList<SelectListItem>? Providers)
{
    public static SessionForm ForLog(VisitPage visit) =>
        new(visit.Planned, true, false, visit.Service.CoTreatment, PartnersOf(visit), null) { Routines = visit.Routines };

    public static SessionForm ForCorrection(VisitPage visit) => new(
        visit.Planned, false, visit.Planned is null, visit.Service.CoTreatment, PartnersOf(visit),
        visit.MayNameOthers ? Choices.People(visit.Team, $"{visit.Provider.Name}, as it stands") : null)
    { Routines = visit.Routines, Awards = AwardsOf(visit.Awards) };

    /// <summary>What a log begins with: what was planned, and what was practised where something was.</summary>
    public static LogSession.Input Begin(VisitPage visit, LocalTime planned)
    {
        var practised = visit.Practised is { } found && found.End > found.Start ? found : null;
        return new()
        {
            Version = visit.Version,
            Start = Say.Time(practised is not null && practised.Start < planned ? practised.Start : planned),
            End = practised is not null && practised.End > planned ? Say.Time(practised.End) : null,
            Routines = [.. practised?.Routines ?? []],
            Filled = practised?.Filled.Select(f => new TypedFilling(f.Kind, f.Minutes)).ToArray(),
            Place = visit.Service.Place,
            Format = visit.Group.Count > 0 ? SessionFormat.Group : visit.Service.Format,
            PaysOn = visit.PaysOn,
            PartnerId = visit.PartnerId,
            Reason = visit.CalledOff,
            Outcome = visit.CalledOff is null ? VisitOutcome.Given : VisitOutcome.NotOffered,
        };
    }

    /// <summary>What a correction begins with: what stands.</summary>
    public static CorrectSession.Input Begin(SessionOnRecord session, int? award) => new()
    {
        Session = session.Id,
        Outcome = session.Outcome,
        OnDay = session.OnDay,
        Start = Say.Time(session.Start),
        End = Say.Time(session.End),
        NotCounted = session.NotCounted,
        Reason = session.Reason,
        PaysOn = session.PaysOn,
        AwardId = award,
        Place = session.Place,
        Format = session.Format,
        PartnerId = session.Partner?.Id,
        SharedMinutes = session.Led ? session.SharedMinutes : null,
        Led = session.Led,
        Practised = session.Practised,
        Routines = [.. session.Routines.Select(r => r.Id)],
        Filled = [.. session.Filled.Select(f => new TypedFilling(f.Kind, f.Minutes))],
        Present = session.Present,
        Note = session.Note,
    };

    /// <summary>The routines that can be said to have been practised.</summary>
    public IReadOnlyList<VisitRoutine> Routines { get; init; } = [];

    /// <summary>Awards of compensatory services that it can be for; empty where there are none, or where the visit was scheduled for one or for none.</summary>
    public IReadOnlyList<SelectListItem> Awards { get; init; } = [];

    /// <summary>What the service lacks, in words; null where nothing does or the service is not chosen yet.</summary>
    public string? Lacking { get; init; }

    public string PaysHint => $"A school day of the week, month or period that this visit pays, missed visit or not.{(Lacking is null ? "" : $" Not given so far: {Lacking}.")}";

    /// <summary>When it was to end.</summary>
    public LocalTime? PlannedEnd => Planned is { } planned ? planned.Start.PlusMinutes(planned.Minutes) : null;

    public string EndHint => EndMayBeEmpty && PlannedEnd is { } end
        ? $"Leave it empty if it ended as planned, at {Say.Time(end)}. It is then marked as times from the plan."
        : "Such as 9:45 or 3:10 pm.";

    public static IReadOnlyList<SelectListItem> AwardsOf(IReadOnlyList<AwardChoice> awards) => awards.Count == 0 ? [] : AwardWords.Choices(awards);

    private static IReadOnlyList<SelectListItem> PartnersOf(VisitPage visit) =>
        Choices.People(visit.Team.Where(t => t.Id != visit.Provider.Id), "Nobody: given alone");
}
