using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Begins the progress report of a learner for a reporting period, with the goals that run in it and the figures on record.</summary>
public sealed class BeginReport(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Period { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(BeginReport), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        var period = await db.Periods.SingleOrDefaultAsync(p => p.AgencyId == agency && p.Id == input.Period, stop);
        if (!ReportRules.MayBegin(caller, learner) || period is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (period.StartDay > caller.Today)
            return Outcome<Saved>.Refused("", "That reporting period has not begun yet.");
        if (await db.Reports.AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.PeriodId == period.Id, stop))
            return Outcome<Saved>.Refused("", "Somebody has begun that report meanwhile. It stands in the list.");
        var goals = await db.Goals.Where(g => g.AgencyId == agency && g.LearnerId == learner && g.FromDay <= period.EndDay && g.ToDay >= period.StartDay)
            .OrderBy(g => g.Position).ThenBy(g => g.Id).Select(g => g.Id).ToListAsync(stop);
        if (goals.Count == 0)
            return Outcome<Saved>.Refused("", "No goal runs in that reporting period, so there is nothing to report on.");
        var facts = await ReportFigures.ReadAsync(db, caller, learner, new(period.StartDay, period.EndDay), goals, stop);
        var report = new ReportRow
        {
            AgencyId = agency,
            LearnerId = learner,
            PeriodId = period.Id,
            BegunBy = caller.PersonId,
            Facts = facts.Write(),
            Hash = new ReportContent(1, facts, [.. goals.Select(g => new GoalSaid(g))]).Hash(),
            RecordedAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        db.Add(report);
        await db.SaveChangesAsync(stop);
        db.AddRange(goals.Select((g, at) => new ReportGoalRow { AgencyId = agency, LearnerId = learner, ReportId = report.Id, GoalId = g, Position = at }));
        return Outcome<Saved>.Of(new(report.Id));
    }
}
