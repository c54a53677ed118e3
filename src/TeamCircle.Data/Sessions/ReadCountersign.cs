using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Sessions;

/// <summary>An assistant's entry that waits for a countersignature.</summary>
/// <param name="Supervisor">Who supervised on that day.</param>
/// <param name="HasLeft">Whether the supervisor works with the learner no longer, so that it falls to the case manager.</param>
/// <param name="SentBack">The word with which it was sent back; null where it was not.</param>
public sealed record EntryToSign(
    Guid Session, Guid Visit, int LearnerId, string Learner, int AssistantId, string Assistant, string Supervisor, bool HasLeft, LocalDate OnDay, LocalTime Start, LocalTime End,
    Discipline Discipline, VisitOutcome Outcome, string? SentBack);

/// <summary>Reads the assistants' entries that wait: for the caller's signature, and the caller's own that were sent back.</summary>
public sealed class ReadCountersign(Portal portal)
{
    /// <summary>Those that the caller may sign and that were not sent back, oldest first.</summary>
    public Task<IReadOnlyList<EntryToSign>> RunAsync(Caller caller, Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, async db => ToSign(caller, await WaitingAsync(db, caller, stop)), stop);

    /// <summary>One of them, also while it is sent back; null where the caller may not sign it, or it does not wait any more.</summary>
    public Task<EntryToSign?> FindAsync(Caller caller, Scope scope, Guid session, CancellationToken stop = default) =>
        portal.ReadAsync(scope, async db => (await WaitingAsync(db, caller, stop)).Find(w => w.Entry.Session == session && w.MaySign(caller))?.Entry, stop);

    /// <summary>What waits for the caller to sign; what was sent back to the caller.</summary>
    internal static async Task<(IReadOnlyList<EntryToSign> ToSign, IReadOnlyList<EntryToSign> SentBack)> OfAsync(PortalDb db, Caller caller, CancellationToken stop)
    {
        var waiting = await WaitingAsync(db, caller, stop);
        return (ToSign(caller, waiting), [.. waiting.Where(w => w.Entry.AssistantId == caller.PersonId && w.Entry.SentBack is not null).Select(w => w.Entry)]);
    }

    internal sealed record Waits(EntryToSign Entry, int Supervisor)
    {
        public bool MaySign(Caller caller) => CountersignRules.MaySign(caller, Entry.LearnerId, Entry.AssistantId, Supervisor, !Entry.HasLeft);
    }

    private static IReadOnlyList<EntryToSign> ToSign(Caller caller, List<Waits> waiting) =>
        [.. waiting.Where(w => w.Entry.SentBack is null && w.MaySign(caller)).Select(w => w.Entry)];

    private static Task<List<Waits>> WaitingAsync(PortalDb db, Caller caller, CancellationToken stop) => (
        from s in db.Sessions
        join l in db.Learners on new { s.AgencyId, Id = s.LearnerId } equals new { l.AgencyId, l.Id }
        join service in db.Services on new { s.AgencyId, Id = s.ServiceId } equals new { service.AgencyId, service.Id }
        join assistant in db.People on new { s.AgencyId, Id = s.ProviderId } equals new { assistant.AgencyId, assistant.Id }
        join supervisor in db.People on new { s.AgencyId, Id = s.SupervisorId } equals new { supervisor.AgencyId, Id = (int?)supervisor.Id }
        where s.AgencyId == caller.AgencyId && s.Live && s.SupervisorId != null && s.CountersignedAt == null
            && !db.FiledItems.Any(f => f.AgencyId == s.AgencyId && f.LearnerId == s.LearnerId && f.PersonId == s.SupervisorId && f.VisitId == s.VisitId)
        orderby s.OnDay, s.StartTime
        select new Waits(
            new(s.Id, s.VisitId, s.LearnerId, l.Name, s.ProviderId, assistant.Name, supervisor.Name,
                !db.Relations.Any(r => r.AgencyId == s.AgencyId && r.LearnerId == s.LearnerId && r.PersonId == s.SupervisorId && r.Kind != Relation.Family
                    && r.Kind != Relation.Reviewer && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)),
                s.OnDay, s.StartTime, s.EndTime, service.Discipline, s.Outcome, s.SentBackWhy),
            supervisor.Id)).ToListAsync(stop);
}
