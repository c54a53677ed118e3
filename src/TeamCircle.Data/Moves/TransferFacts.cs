using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Moves;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Moves;

/// <summary>Reads what a receiving agency is given, as it stands.</summary>
internal sealed class TransferFacts(PortalDb db, MoveOutRow move, LocalDate today)
{
    /// <summary>A present level is the middle of so many probes.</summary>
    private const int ProbesOfALevel = 3;

    private readonly int _agency = move.AgencyId;
    private readonly int _learner = move.LearnerId;

    public async Task<TransferContent> ReadAsync(CancellationToken stop)
    {
        var learner = await db.Learners.SingleAsync(l => l.AgencyId == _agency && l.Id == _learner, stop);
        var day = LocalDate.Min(today, move.LastDay);
        var plan = await db.Plans.Where(p => p.AgencyId == _agency && p.LearnerId == _learner && p.StartDay <= day).OrderByDescending(p => p.StartDay).FirstOrDefaultAsync(stop);
        var content = new TransferContent
        {
            Learner = learner.LegalName ?? learner.Name,
            Called = learner.LegalName is null ? null : learner.Name,
            Code = learner.Code,
            AsOf = today,
            LastDay = move.LastDay,
            ToWhere = move.ToWhere,
            PlanFrom = plan?.StartDay,
            PlanTo = plan?.EndDay,
            Works = move.Works!,
            WorksNot = move.WorksNot,
            Services = await ServicesAsync(day, stop),
            Goals = await GoalsAsync(plan?.Id ?? 0, stop),
            Teaching = await TeachingAsync(stop),
            Routines = await RoutinesAsync(stop),
            Reports = await ReportsAsync(stop),
            Statements = await db.ParentStatements.Where(s => s.AgencyId == _agency && s.LearnerId == _learner).OrderBy(s => s.GivenOn).ThenBy(s => s.Id)
                .Select(s => new TransferStatement(s.Words, s.GivenBy, s.GivenOn)).ToListAsync(stop),
            Holds = await db.RecordHolds.Where(h => h.AgencyId == _agency && h.LearnerId == _learner && h.EndedAt == null).OrderBy(h => h.FromDay)
                .Select(h => new TransferHold(h.FromDay, h.ToDay, h.Reason)).ToListAsync(stop),
        };
        return await WithFiguresAsync(content, stop);
    }

    private async Task<TransferContent> WithFiguresAsync(TransferContent content, CancellationToken stop)
    {
        var rules = await AgencyRules.ReadAsync(db, _agency, stop);
        var facts = await new ReadFacts(db, new(_agency, [_learner]), rules, Day.Of(today)).RunAsync(stop);
        var balances = new List<TransferBalance>();
        foreach (var period in rules.Periods.Where(p => p.StartDay <= today))
        {
            var at = new Judging(DateRange.Of(period.StartDay, period.EndDay), Day.Of(today), rules.Policies);
            foreach (var index in Enumerable.Range(0, facts.Lines.Count).Where(i => !facts.Lines[i].IsProbes && facts.Lines[i].Promise.Dates.Touches(at.Period)))
            {
                var (line, balance) = (facts.Lines[index], Ledger.Explain(facts.Of(index, at), at).Balance);
                var sums = balance.Minutes;
                balances.Add(new(period.Name, line.Code, line.Service!.Discipline, sums.DueSoFar, sums.GivenSoFar, sums.LackSoFar, balance.Open.Owed, balance.Open.Given));
            }
        }
        var debts = await LearnerDebts.ReadAsync(db, facts, new(new(Day.Of(today), Day.Of(today)), Day.Of(today), rules.Policies), null, stop);
        return content with
        {
            Balances = balances,
            BroughtForward = [.. debts.Where(d => !d.Account.Standing.Open.IsNothing).Select(d => new TransferDebt(d.Line.Code, d.Row.OnDay, d.Account.Standing.Open.Minutes, d.Account.Standing.Open.Sessions, d.Line.IsProbes))],
            Awards = [.. (await LearnerAwards.ReadAsync(db, _agency, _learner, today, stop)).Select(a => new TransferAward(
                a.Row.Paper, a.Row.Discipline, a.Row.Amount, a.Balance.Given, a.Row.Unit == AwardUnit.Sessions, a.Row.FromDay, a.Row.UntilDay))],
        };
    }

    private async Task<IReadOnlyList<TransferService>> ServicesAsync(LocalDate day, CancellationToken stop)
    {
        var services = await db.Services.Where(s => s.AgencyId == _agency && s.LearnerId == _learner && s.FromDay <= day && s.ToDay >= day).OrderBy(s => s.Position).ToListAsync(stop);
        var versions = (await db.ServiceVersions.Where(v => v.AgencyId == _agency && v.LearnerId == _learner && v.FromDay <= day).OrderBy(v => v.FromDay).ToListAsync(stop)).ToLookup(v => v.ServiceId);
        var givers = (await (
            from a in db.Assignments
            join p in db.People on new { a.AgencyId, Id = a.PersonId } equals new { p.AgencyId, p.Id }
            where a.AgencyId == _agency && a.LearnerId == _learner && a.FromDay <= day && a.ToDay >= day
            orderby p.Name
            select new { a.ServiceId, p.Name }).ToListAsync(stop)).ToLookup(a => a.ServiceId, a => a.Name);
        return [.. services.Where(s => versions[s.Id].Any()).Select(s => Of(s, versions[s.Id].Last(), [.. givers[s.Id].Distinct()]))];
    }

    private static TransferService Of(ServiceRow service, ServiceVersionRow version, IReadOnlyList<string> givers) => new(
        service.Code, service.Discipline, service.Kind, service.Place, service.Format, version.Quantity, service.EveryUnit, service.EveryCount, service.FromDay, service.ToDay, givers,
        version.QuantityTo, version.Sessions, version.PlanWords);

    private async Task<IReadOnlyList<TransferGoal>> GoalsAsync(int plan, CancellationToken stop)
    {
        var goals = await db.Goals.Where(g => g.AgencyId == _agency && g.LearnerId == _learner && g.PlanId == plan).OrderBy(g => g.Position).ToListAsync(stop);
        var objectives = (await db.Objectives.Where(o => o.AgencyId == _agency && o.LearnerId == _learner).OrderBy(o => o.Position).ToListAsync(stop)).ToLookup(o => o.GoalId, o => o.Statement);
        var probes = (await db.Probes.Where(p => p.AgencyId == _agency && p.LearnerId == _learner && p.Live && p.Kind == ProbeKind.Probe).OrderBy(p => p.OnDay).ToListAsync(stop)).ToLookup(p => p.GoalId);
        return [.. goals.Select(g =>
        {
            var last = probes[g.Id].TakeLast(ProbesOfALevel).ToList();
            var middle = last.Count < ProbesOfALevel ? (decimal?)null : last.Select(p => p.Value).Order().ElementAt(ProbesOfALevel / 2);
            return new TransferGoal(g.Area, g.Statement, g.Measure, [.. objectives[g.Id]], g.Baseline, g.Target, g.TargetDay, middle, last.Count == 0 ? null : last[^1].OnDay);
        })];
    }

    private Task<List<TransferTeaching>> TeachingAsync(CancellationToken stop) => (
        from t in db.TeachParts
        join p in db.People on new { t.AgencyId, Id = t.WrittenBy } equals new { p.AgencyId, p.Id }
        where t.AgencyId == _agency && t.LearnerId == _learner
        orderby t.Id
        select new TransferTeaching(t.Part, t.Text, t.WrittenOn, p.Name)).ToListAsync(stop);

    private async Task<IReadOnlyList<TransferRoutine>> RoutinesAsync(CancellationToken stop)
    {
        var routines = await db.Routines.Where(r => r.AgencyId == _agency && r.LearnerId == _learner && r.Live).OrderBy(r => r.Name).ToListAsync(stop);
        var cards = (await CardFacts.NewestAsync(db, _agency, [.. routines.Select(r => r.Id)], today, stop)).ToDictionary(c => c.Routine, c => c.Content);
        return [.. routines.Select(r => new TransferRoutine(r.Name, r.ObjectCue, cards.GetValueOrDefault(r.Id)))];
    }

    /// <summary>What was shared with the family, goal by goal as the team joined it.</summary>
    private async Task<IReadOnlyList<TransferReport>> ReportsAsync(CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == _agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var rows = await (
            from r in db.Reports
            join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
            join g in db.ReportGoals on new { r.AgencyId, r.LearnerId, ReportId = r.Id } equals new { g.AgencyId, g.LearnerId, g.ReportId }
            join goal in db.Goals.IgnoreQueryFilters() on new { g.AgencyId, Id = g.GoalId } equals new { goal.AgencyId, goal.Id }
            where r.AgencyId == _agency && r.LearnerId == _learner && r.SharedAt != null
            orderby p.StartDay, g.Position
            select new { r.Id, p.Name, SharedAt = r.SharedAt!.Value, goal.Area, g.Status, g.Words }).ToListAsync(stop);
        return [.. rows.GroupBy(r => r.Id).Select(r => new TransferReport(
            r.First().Name, r.First().SharedAt.InZone(zone).Date, [.. r.Select(g => new TransferReported(g.Area, g.Status, g.Words))]))];
    }
}
