using NodaTime;

namespace TeamCircle.Core.Moves;

/// <summary>What somebody who leaves would leave behind. Each kind has its own act.</summary>
public enum HandOverKind
{
    /// <summary>A visit up to the last day that nobody logged: they log it, or it is filed as one that can no longer be logged.</summary>
    VisitNotLogged,

    /// <summary>A colleague says that they treated together, and they have not answered: they answer, or it is filed as one that nobody can confirm any more.</summary>
    ToConfirm,

    /// <summary>What an assistant logged under them and they have not countersigned. Once they are gone the case manager signs it (<c>CountersignRules</c>), or files that nobody can stand for it.</summary>
    Countersign,

    /// <summary>Their paragraph or signature of a progress report: they write it, or it is filed as one that can no longer be signed.</summary>
    Report,

    /// <summary>Something that a device of theirs sent and that needs a person.</summary>
    SetAside,

    /// <summary>A device that is not revoked: what it has not sent yet nobody can know.</summary>
    Device,

    /// <summary>A service for which they are named after the last day.</summary>
    Service,

    /// <summary>A goal that they own after the last day.</summary>
    Goal,

    /// <summary>A thing that was promised and that they see to.</summary>
    Thing,

    /// <summary>A visit that they are to give after the last day.</summary>
    VisitToCome,

    /// <summary>A series of visits of theirs that runs on after the last day.</summary>
    Series,

    /// <summary>An assistant whom they supervise after the last day.</summary>
    Supervision,

    /// <summary>A learner whose case manager they are after the last day.</summary>
    CaseManagement,
}

/// <summary>One thing that is not decided yet.</summary>
/// <param name="Learner">Null where it is about no learner: a device, something set aside that led to none.</param>
/// <param name="Id">The service, goal, series, report or row; null where <paramref name="Visit"/> says it.</param>
/// <param name="Visit">The visit, or the device.</param>
/// <param name="On">The day of the visit, the last day of what runs on, or of a device's last contact; null: none, or open.</param>
/// <param name="Session">The entry of the visit that is to be confirmed or countersigned; null elsewhere.</param>
public sealed record HandOverItem(HandOverKind Kind, int? Learner, int? Id = null, Guid? Visit = null, LocalDate? On = null, Guid? Session = null);

/// <summary>A visit that stands planned for the person who leaves.</summary>
/// <param name="IsService">Other kinds of visit need no log.</param>
public sealed record PlannedForThem(Guid Id, int Learner, LocalDate On, bool IsService);

/// <summary>Something that is theirs up to a day; null: open.</summary>
public sealed record TheirsUntil(HandOverKind Kind, int Learner, int Id, LocalDate? Until);

/// <summary>All that bears on a last day, as it stands.</summary>
public sealed record HandOverFacts
{
    public IReadOnlyList<PlannedForThem> Visits { get; init; } = [];

    /// <summary>Services, goals, series, supervision, learners they manage: whatever their days.</summary>
    public IReadOnlyList<TheirsUntil> Theirs { get; init; } = [];

    /// <summary>What waits for them and is filed by nobody: reports, what to confirm, what to countersign, what was set aside, devices.</summary>
    public IReadOnlyList<HandOverItem> Waiting { get; init; } = [];
}

/// <summary>The list of a last day: empty where nothing is left to decide.</summary>
public static class HandOverList
{
    /// <summary>The kinds that one act hands over together, learner by learner.</summary>
    public static bool IsOfLearner(HandOverKind kind) => kind >= HandOverKind.Service;

    /// <summary>Whether it can be filed as something that nobody can write any more. What waits for a countersignature can be once they are gone: until then they sign or send it back.</summary>
    public static bool CanBeFiled(HandOverKind kind, LocalDate lastDay, LocalDate today) =>
        kind is HandOverKind.VisitNotLogged or HandOverKind.ToConfirm or HandOverKind.Report || (kind == HandOverKind.Countersign && lastDay < today);

    /// <summary>Oldest first within a kind.</summary>
    /// <param name="lastDay">Belongs to them still: a visit of that day is theirs to give and to log.</param>
    /// <param name="today">A visit of today can still be logged in time and stands in no list.</param>
    public static IReadOnlyList<HandOverItem> Of(HandOverFacts facts, LocalDate lastDay, LocalDate today)
    {
        var visits = facts.Visits.Where(v => v.On > lastDay).Select(v => new HandOverItem(HandOverKind.VisitToCome, v.Learner, Visit: v.Id, On: v.On));
        var past = facts.Visits.Where(v => v.IsService && v.On <= lastDay && v.On < today)
            .Select(v => new HandOverItem(HandOverKind.VisitNotLogged, v.Learner, Visit: v.Id, On: v.On));
        var theirs = facts.Theirs.Where(t => t.Until is null || t.Until > lastDay).Select(t => new HandOverItem(t.Kind, t.Learner, t.Id, On: t.Until));
        return [.. past.Concat(facts.Waiting).Concat(theirs).Concat(visits).OrderBy(i => i.Kind).ThenBy(i => i.Learner).ThenBy(i => i.On)];
    }
}
