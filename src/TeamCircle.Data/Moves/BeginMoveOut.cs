using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Sets a learner's last day here. Services and goals end with it, what was planned later is not planned any more, and the team reads the record up to the day
/// named; the case manager keeps it, the family keeps what was shared, and nothing that was recorded changes.
/// </summary>
public sealed class BeginMoveOut(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public LocalDate? LastDay { get; init; }
        public string? ToWhere { get; init; }
        public TransferGround? Ground { get; init; }
        public string? GroundWords { get; init; }

        /// <summary>Null: <see cref="MoveRules.UsualDaysToRead"/> days after the last day.</summary>
        public LocalDate? ReadUntil { get; init; }
    }

    /// <param name="Visits">Visits to come that are called off or not planned any more.</param>
    public sealed record Saved(int Learner, int Visits);

    private const string Why = "the learner moves away";

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(BeginMoveOut), input), db => WorkAsync(db, caller, operation, input, stop), stop, Why);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Guid operation, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        if (await db.MovesOut.AnyAsync(m => m.AgencyId == agency && m.LearnerId == learner, stop))
            return Outcome<Saved>.Refused("LastDay", "A last day is set already. Take that back first.");
        var readUntil = input.ReadUntil ?? input.LastDay?.PlusDays(MoveRules.UsualDaysToRead);
        Problem[] problems = [.. MoveRules.CheckOut(input.LastDay, input.ToWhere, input.Ground, input.GroundWords, readUntil)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var last = input.LastDay!.Value;
        if (await EndPlanAsync(db, agency, learner, last, stop) is { } problem)
            return Outcome<Saved>.Refused(problem);
        foreach (var relation in (await db.Relations.Where(r => r.AgencyId == agency && r.LearnerId == learner && (r.ToDay == null || r.ToDay > readUntil)).ToListAsync(stop)).Where(r => LastDayRules.Ends(r.Kind)))
            relation.EndOn(db, readUntil!.Value, Why);
        db.Add(new MoveOutRow
        {
            AgencyId = agency,
            LearnerId = learner,
            LastDay = last,
            ToWhere = input.ToWhere!.Trim(),
            Ground = input.Ground!.Value,
            GroundWords = input.GroundWords!.Trim(),
            ReadUntil = readUntil!.Value,
            SetBy = caller.PersonId,
            Operation = operation,
        });
        return Outcome<Saved>.Of(new(learner, await EndVisitsAsync(db, agency, learner, last, stop)));
    }

    /// <summary>Services and goals that run on end; those that had not begun by then are taken back. Null where all could be.</summary>
    private static async Task<Problem?> EndPlanAsync(PortalDb db, int agency, int learner, LocalDate last, CancellationToken stop)
    {
        var services = await db.Services.Where(s => s.AgencyId == agency && s.LearnerId == learner && s.ToDay > last).ToListAsync(stop);
        var goals = await db.Goals.Where(g => g.AgencyId == agency && g.LearnerId == learner && g.ToDay > last).ToListAsync(stop);
        LocalDate[] ends = [.. services.Select(s => s.ToDay), .. goals.Select(g => g.ToDay)];
        if (ends.Length > 0 && await ClosedCounts.FindAsync(db, agency, learner, [new(last.PlusDays(1), ends.Max())], stop) is { } closed)
            return closed;
        foreach (var service in services)
        {
            if (service.FromDay > last)
                (service.Live, service.TakenBackReason) = (false, Why);
            else
                (service.ToDay, service.EndReason) = (last, Why);
        }
        foreach (var goal in goals)
        {
            if (goal.FromDay > last)
                (goal.Live, goal.TakenBackReason) = (false, Why);
            else
                goal.ToDay = last;
        }
        return null;
    }

    private static async Task<int> EndVisitsAsync(PortalDb db, int agency, int learner, LocalDate last, CancellationToken stop)
    {
        var planned = db.Visits.Where(v => v.AgencyId == agency && v.LearnerId == learner && v.Live && v.State == VisitState.Planned && v.OnDay > last);
        var visits = await planned.CountAsync(stop);
        foreach (var series in await db.Series.Where(s => s.AgencyId == agency && s.LearnerId == learner && s.Live && (s.EndsOn == null || s.EndsOn > last)).ToListAsync(stop))
            await FollowingVisits.EndAsync(db, series, LocalDate.Max(last.PlusDays(1), series.FirstDay), Guid.Empty, stop);
        foreach (var visit in await planned.ToListAsync(stop))
        {
            visit.CallOff(Reason.FamilyAway);
        }
        return visits;
    }
}
