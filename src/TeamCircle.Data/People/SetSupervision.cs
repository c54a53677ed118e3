using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.People;

/// <summary>Says how often an assistant is watched at work with a learner. One commitment holds at a time: a new one ends the one before on the day before.</summary>
public sealed class SetSupervision(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int? Assistant { get; set; }
        public EveryUnit EveryUnit { get; set; }
        public int? EveryCount { get; set; } = 1;
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(SetSupervision), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var assistants = (await AddTeamMember.StandingAsync(db, caller.AgencyId, input.Learner, stop))
            .Where(r => r.Kind == Relation.Assistant && (r.ToDay is null || r.ToDay >= caller.Today)).Select(r => r.PersonId).ToHashSet();
        Problem[] problems = [.. SupervisionRules.Check(input.Assistant, new(input.EveryUnit, input.EveryCount ?? 0), input.FromDay, input.ToDay, assistants)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var from = input.FromDay!.Value;
        var before = await db.Supervisions.Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner && s.AssistantId == input.Assistant
            && (s.ToDay == null || s.ToDay >= from)).ToListAsync(stop);
        foreach (var row in before)
            Replace(db, row, from);
        db.Add(new SupervisionRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            AssistantId = input.Assistant!.Value,
            EveryUnit = input.EveryUnit,
            EveryCount = input.EveryCount!.Value,
            FromDay = from,
            ToDay = input.ToDay,
        });
        return Outcome<Saved>.Of(new(input.Learner));
    }

    /// <summary>The one before stays until the day before; one that had not begun by then never held.</summary>
    private static void Replace(PortalDb db, SupervisionRow row, LocalDate from)
    {
        (row.Live, row.TakenBackReason) = (false, "another took its place");
        if (row.FromDay < from)
            db.Add(new SupervisionRow
            {
                AgencyId = row.AgencyId,
                LearnerId = row.LearnerId,
                AssistantId = row.AssistantId,
                EveryUnit = row.EveryUnit,
                EveryCount = row.EveryCount,
                FromDay = row.FromDay,
                ToDay = from.PlusDays(-1),
            });
    }
}
