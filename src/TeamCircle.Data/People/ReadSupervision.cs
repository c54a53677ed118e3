using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.People;

/// <summary>The assistants of a learner, and how they are supervised.</summary>
/// <param name="Assistants">By name; those who have left too.</param>
/// <param name="Visits">Supervision visits, newest first.</param>
public sealed record SupervisionPage(int Learner, string Name, IReadOnlyList<SupervisedAssistant> Assistants, IReadOnlyList<ObservationShown> Visits);

/// <param name="Supervisors">Who supervised when, oldest first.</param>
/// <param name="Promise">How often they are watched; null where nobody has said so.</param>
/// <param name="Standing">Where that stands today; null without it, and where the assistant does not work here today.</param>
public sealed record SupervisedAssistant(
    int PersonId, string Name, IReadOnlyList<SupervisedBy> Supervisors, SupervisionPromise? Promise, SupervisionStanding? Standing);

/// <param name="ToDay">Null: until further notice.</param>
public sealed record SupervisedBy(int? PersonId, string? Name, LocalDate FromDay, LocalDate? ToDay);

public sealed record ObservationShown(
    int Id, int AssistantId, string Assistant, int ObserverId, string Observer, LocalDate OnDay, int Minutes, bool Direct, string? Note);

/// <summary>A supervision visit that the caller owes.</summary>
/// <param name="DueBy">The last day of the window that runs.</param>
/// <param name="IsOverdue">Whether the window before went by without one.</param>
public sealed record SupervisionWaits(int LearnerId, string Learner, string Assistant, LocalDate DueBy, bool IsOverdue);

/// <summary>Reads how assistants are supervised.</summary>
public sealed class ReadSupervision(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner. Four statements.</summary>
    public Task<SupervisionPage?> RunAsync(Caller caller, Scope scope, int learner, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var name = await db.Learners.Where(l => l.AgencyId == caller.AgencyId && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop);
        if (name is null)
            return null;
        var relations = await db.Relations.Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.Kind == Relation.Assistant).OrderBy(r => r.FromDay).ToListAsync(stop);
        var names = await db.People.Where(p => p.AgencyId == caller.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var facts = await Together.AloneAsync(db, all => FactsAsync(db, all, caller, [learner]), stop);
        return new SupervisionPage(
            learner, name, [.. relations.GroupBy(r => r.PersonId).Select(a => Assistant(a.Key, [.. a], names, facts, caller.Today)).OrderBy(a => a.Name)],
            [.. facts.Held.OrderByDescending(h => h.OnDay).ThenByDescending(h => h.Id).Select(h => new ObservationShown(
                h.Id, h.AssistantId, names[h.AssistantId], h.ObserverId, names[h.ObserverId], h.OnDay, h.Minutes, h.Direct, h.Note))]);
    }, stop);

    /// <summary>What the caller, as a supervisor today, still owes in the window that runs; one question where they supervise nobody, else two more.</summary>
    internal static async Task<IReadOnlyList<SupervisionWaits>> WaitingAsync(PortalDb db, Together all, Caller caller)
    {
        var supervised = await all.ListAsync(
            from r in db.Relations
            join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
            join p in db.People on new { r.AgencyId, Id = r.PersonId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == caller.AgencyId && r.SupervisorId == caller.PersonId && r.Kind == Relation.Assistant
                && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
            orderby l.Name, p.Name
            select new { r.LearnerId, Learner = l.Name, r.PersonId, Assistant = p.Name });
        if (supervised.Count == 0)
            return [];
        var facts = await FactsAsync(db, all, caller, [.. supervised.Select(s => s.LearnerId).Distinct()]);
        return [.. supervised.Select(s => (Of: s, facts.Of(s.LearnerId, s.PersonId, caller.Today).Standing)).Where(s => s.Standing?.DueBy is not null)
            .Select(s => new SupervisionWaits(s.Of.LearnerId, s.Of.Learner, s.Of.Assistant, s.Standing!.DueBy!.Value, s.Standing.IsOverdue))];
    }

    private sealed record Facts(IReadOnlyList<SupervisionRow> Promised, IReadOnlyList<ObservationRow> Held)
    {
        /// <summary>The commitment of a day, or the one that comes next, and where it stands.</summary>
        public (SupervisionPromise? Promise, SupervisionStanding? Standing) Of(int learner, int assistant, LocalDate today)
        {
            var row = Promised.Where(p => p.LearnerId == learner && p.AssistantId == assistant && (p.ToDay is null || p.ToDay >= today)).MinBy(p => p.FromDay);
            if (row is null)
                return (null, null);
            var promise = new SupervisionPromise(new Every(row.EveryUnit, row.EveryCount), row.FromDay, row.ToDay);
            return (promise, SupervisionRules.Standing(promise, [.. Held.Where(h => h.LearnerId == learner && h.AssistantId == assistant).Select(h => h.OnDay)], today));
        }
    }

    private static async Task<Facts> FactsAsync(PortalDb db, Together all, Caller caller, int[] learners)
    {
        var promised = all.ListAsync(db.Supervisions.Where(s => s.AgencyId == caller.AgencyId && learners.Contains(s.LearnerId)));
        var held = all.ListAsync(db.Observations.Where(o => o.AgencyId == caller.AgencyId && learners.Contains(o.LearnerId)));
        return new(await promised, await held);
    }

    private static SupervisedAssistant Assistant(int person, RelationRow[] relations, Dictionary<int, string> names, Facts facts, LocalDate today)
    {
        var (promise, standing) = facts.Of(relations[0].LearnerId, person, today);
        return new(
            person, names[person], [.. relations.Select(r => new SupervisedBy(r.SupervisorId, r.SupervisorId is { } by ? names[by] : null, r.FromDay, r.ToDay))],
            promise, Array.Exists(relations, r => AddTeamMember.Dates(r).Holds(today)) ? standing : null);
    }
}
