using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Family;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Reports;

namespace TeamCircle.Data.Papers;

/// <summary>Brings together what a meeting's pack holds, as it stands today.</summary>
internal sealed class PackFigures(PortalDb db, Caller caller, int learner)
{
    private readonly int _agency = caller.AgencyId;

    /// <summary>Null where the learner has no plan that has begun.</summary>
    public async Task<PackContent?> ReadAsync(CancellationToken stop)
    {
        var plan = await db.Plans.AsNoTracking().Where(p => p.AgencyId == _agency && p.LearnerId == learner && p.StartDay <= caller.Today)
            .OrderByDescending(p => p.StartDay).FirstOrDefaultAsync(stop);
        if (plan is null)
            return null;
        var year = new DateInterval(plan.StartDay, plan.EndDay);
        var goals = await db.Goals.Where(g => g.AgencyId == _agency && g.LearnerId == learner && g.PlanId == plan.Id)
            .OrderBy(g => g.Position).ThenBy(g => g.Id).Select(g => g.Id).ToListAsync(stop);
        var facts = await ReportFigures.ReadAsync(db, caller, learner, year, goals, stop);
        var rules = await AgencyRules.ReadAsync(db, _agency, stop);
        var parts = await db.TeachParts.AsNoTracking().Where(p => p.AgencyId == _agency && p.LearnerId == learner).OrderBy(p => p.Part).ToListAsync(stop);
        return new(
            facts.AsOf, year.Start, year.End, facts.Goals, await ServicesAsync(rules, plan, stop), await BreaksAsync(rules, year, stop),
            [.. parts.OrderBy(p => p.Part).Select(p => new PackPart(p.Part, p.Text, p.WrittenOn))], await FamilyAsync(year, stop),
            [.. (await DateFacts.ReadAsync(db, _agency, [learner], rules.Periods, caller.Today, stop)).Where(d => d.Kind != BoundKind.Pack).Select(d => new PackDate(d.Kind, d.Due, d.About))]);
    }

    private async Task<IReadOnlyList<SchoolBreak>> BreaksAsync(AgencyRules rules, DateInterval year, CancellationToken stop)
    {
        var away = await db.Aways.Where(a => a.AgencyId == _agency && a.LearnerId == learner && a.Live).Select(a => new { a.FromDay, a.UntilDay }).ToListAsync(stop);
        return Breaks.Of(rules.Calendar, [.. away.Select(a => DateRange.Of(a.FromDay, a.UntilDay ?? caller.Today))], DateRange.Of(year.Start, LocalDate.Min(year.End, caller.Today)));
    }

    /// <summary>What the family said for the meeting since the plan began, oldest first.</summary>
    private async Task<IReadOnlyList<PackWords>> FamilyAsync(DateInterval year, CancellationToken stop) => await db.FamilyRemarks
        .Where(r => r.AgencyId == _agency && r.LearnerId == learner && r.Kind == RemarkKind.ForMeeting && r.SaidOn >= year.Start)
        .OrderBy(r => r.SaidOn).ThenBy(r => r.Id).Select(r => new PackWords(r.Words, r.SaidBy, r.SaidOn)).ToListAsync(stop);

    private async Task<IReadOnlyList<PackService>> ServicesAsync(AgencyRules rules, PlanRow plan, CancellationToken stop)
    {
        var words = (await db.ServiceVersions.AsNoTracking().Where(v => v.AgencyId == _agency && v.LearnerId == learner).OrderBy(v => v.FromDay).ToListAsync(stop)).ToLookup(v => v.ServiceId);
        var closed = await SealedAsync(stop);
        var facts = await new ReadFacts(db, new(_agency, [learner]), rules, Day.Of(caller.Today)).RunAsync(stop);
        var days = DateRange.Of(plan.StartDay, plan.EndDay);
        var periods = rules.Periods.Where(p => p.StartDay <= LocalDate.Min(plan.EndDay, caller.Today) && p.EndDay >= plan.StartDay).ToList();
        var services = new List<PackService>();
        foreach (var index in facts.ByLearner.All.Where(i => !facts.Lines[i].IsProbes && facts.Lines[i].Plan == days))
        {
            var line = facts.Lines[index];
            var own = words[line.Id].LastOrDefault(v => v.FromDay <= caller.Today) ?? words[line.Id].FirstOrDefault();
            var service = new PackService(line.Code, line.Service!.Discipline, 0, 0, 0, line.Promise.Wording is null, 0, 0, 0, 0, own?.PlanWords);
            services.Add(periods.Aggregate(service, (sum, period) => Add(sum, facts, index, period, closed)));
        }
        return services;
    }

    /// <summary>A closed count says what it was sealed with; what was made up since is known only now.</summary>
    private PackService Add(PackService sum, CommitmentFacts facts, int index, PeriodRow period, Dictionary<(int Period, int Service), SealedAnswer> closed)
    {
        var at = new Judging(DateRange.Of(period.StartDay, period.EndDay), Day.Of(caller.Today), facts.Rules.Policies);
        var now = Ledger.Judge(facts.Of(index, at), at, new LedgerDesk());
        sum = sum with { OpenOwed = now.Open.Owed, OpenGiven = now.Open.Given }; // the latest period's stands
        return closed.TryGetValue((period.Id, facts.Lines[index].Id), out var answer)
            ? sum.With(answer["dueSoFar"], answer["lackSoFar"], answer["notOwed"], now.MadeUpSince, isSealed: true)
            : sum.With(now.Minutes.DueSoFar, now.Minutes.LackSoFar, now.Minutes.NotOwed, 0, isSealed: false);
    }

    private async Task<Dictionary<(int, int), SealedAnswer>> SealedAsync(CancellationToken stop)
    {
        var rows = await (
            from l in db.SealedLines
            join s in db.Statements on new { l.AgencyId, l.LearnerId, Id = l.StatementId } equals new { s.AgencyId, s.LearnerId, s.Id }
            join p in db.LearnerPeriods on new { s.AgencyId, s.LearnerId, s.PeriodId } equals new { p.AgencyId, p.LearnerId, p.PeriodId }
            where l.AgencyId == _agency && l.LearnerId == learner && l.ServiceId != null && p.ClosedAt != null
                && !db.Statements.Any(later => later.AgencyId == s.AgencyId && later.LearnerId == s.LearnerId && later.PeriodId == s.PeriodId && later.Edition > s.Edition)
            select new { s.PeriodId, l.ServiceId, l.Answer }).ToListAsync(stop);
        return rows.ToDictionary(r => (r.PeriodId, r.ServiceId!.Value), r => SealedAnswer.Read(r.Answer));
    }
}
