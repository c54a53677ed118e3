using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Import;

/// <summary>Stores goals with the probes they ask for and who owns them.</summary>
internal sealed class StoreGoals(ImportDesk desk)
{
    public async Task RunAsync(IReadOnlyList<GoalLine> lines, CancellationToken stop)
    {
        int[] learners = [.. lines.Select(l => desk.Learners[l.Learner]).Distinct()];
        var plans = (await desk.Db.Plans.Where(p => p.AgencyId == desk.Agency && learners.Contains(p.LearnerId)).OrderBy(p => p.StartDay)
            .AsNoTracking().ToListAsync(stop)).ToLookup(p => p.LearnerId);
        var known = await desk.Db.Goals.Where(g => g.AgencyId == desk.Agency && learners.Contains(g.LearnerId)).ToDictionaryAsync(g => g.Id, stop);
        var position = await desk.Db.Goals.Where(g => g.AgencyId == desk.Agency).MaxAsync(g => (int?)g.Position, stop) ?? 0;
        var rows = new List<(GoalLine Line, GoalRow Row)>();
        foreach (var line in lines)
        {
            if (!known.TryGetValue(desk.Goals.GetValueOrDefault(line.Code), out var row))
                row = desk.Add(new GoalRow { Code = line.Code, Area = line.Area, Statement = line.Statement, Position = ++position });
            Describe(row, line, PlanOf([.. plans[desk.Learners[line.Learner]]], line));
            desk.Count(line.File, line.Line, row);
            rows.Add((line, row));
        }
        await desk.SaveAsync(stop);
        foreach (var (line, row) in rows)
            desk.Goals[line.Code] = row.Id;
        await PromisesAsync(rows, stop);
    }

    private void Describe(GoalRow row, GoalLine line, int plan)
    {
        (row.LearnerId, row.PlanId, row.Area, row.Statement) = (desk.Learners[line.Learner], plan, line.Area, line.Statement);
        (row.Measure, row.Better, row.Baseline, row.Target, row.TargetDay) = (line.Measure, line.Better, line.Baseline, line.Target, line.TargetDay);
        (row.CriterionDays, row.CriterionOf) = (line.Criterion?.Days, line.Criterion?.Of);
        (row.FromDay, row.ToDay) = (line.From, line.To);
    }

    private static int PlanOf(List<PlanRow> plans, GoalLine line) =>
        (plans.Find(p => p.StartDay <= line.From && p.EndDay >= line.From)
         ?? plans.Find(p => p.StartDay <= line.To && p.EndDay >= line.From)
         ?? plans[^1]).Id;

    private async Task PromisesAsync(List<(GoalLine Line, GoalRow Row)> rows, CancellationToken stop)
    {
        int[] goals = [.. rows.Select(r => r.Row.Id)];
        var commitments = (await desk.Db.ProbeCommitments.Where(c => c.AgencyId == desk.Agency && goals.Contains(c.GoalId)).OrderBy(c => c.FromDay)
            .ToListAsync(stop)).ToLookup(c => c.GoalId);
        var owners = (await desk.Db.GoalOwners.Where(o => o.AgencyId == desk.Agency && goals.Contains(o.GoalId)).ToListAsync(stop)).ToLookup(o => o.GoalId);
        foreach (var (line, row) in rows)
        {
            var commitment = commitments[row.Id].FirstOrDefault() ?? desk.Add(new ProbeCommitmentRow { GoalId = row.Id, LearnerId = row.LearnerId });
            (commitment.FromDay, commitment.Probes, commitment.ByEach) = (line.From, line.Probes, line.ByEach);
            (commitment.EveryUnit, commitment.EveryCount) = (line.Every.Unit, line.Every.Count);
            desk.Count(line.File, line.Line, [row, commitment, .. line.Owners.Select((email, i) => Owner(line, row, [.. owners[row.Id]], desk.People[email], i))]);
        }
        await desk.SaveAsync(stop);
    }

    private GoalOwnerRow Owner(GoalLine line, GoalRow goal, List<GoalOwnerRow> known, int person, int position)
    {
        var row = known.Find(o => o.PersonId == person) ?? desk.Add(new GoalOwnerRow { GoalId = goal.Id, LearnerId = goal.LearnerId, PersonId = person });
        (row.Position, row.FromDay, row.ToDay) = (position, line.From, line.To);
        return row;
    }
}
