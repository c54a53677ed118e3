using Microsoft.EntityFrameworkCore;
using NodaTime.Text;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Closing;

/// <summary>Brings together what a statement seals beside its figures, in the transaction that seals.</summary>
/// <param name="facts">The rows of the learner, as the ledger takes them.</param>
/// <param name="at">The period, and the day of the closing.</param>
internal sealed class ReadStatementFacts(PortalDb db, CommitmentFacts facts, Judging at, AuditNames names)
{
    private readonly int _agency = facts.Rules.Agency.Id;
    private ILookup<int, ServiceVersionRow> _versions = null!;
    private Dictionary<int, GoalRow> _goals = [];
    private IReadOnlyList<DebtOnRecord> _debts = [];

    /// <param name="lines">All lines of the learner, judged in the period as of the day of the closing, in the order in which they are sealed.</param>
    /// <param name="signer">The person who signs.</param>
    public async Task<StatementFacts> RunAsync(int learner, PeriodRow period, IReadOnlyList<LedgerLine> lines, int signer, CancellationToken stop)
    {
        _versions = (await db.ServiceVersions.AsNoTracking().Where(v => v.AgencyId == _agency && v.LearnerId == learner)
            .OrderBy(v => v.FromDay).ToListAsync(stop)).ToLookup(v => v.ServiceId);
        _goals = await db.Goals.AsNoTracking().Where(g => g.AgencyId == _agency && g.LearnerId == learner).ToDictionaryAsync(g => g.Id, stop);
        _debts = [.. (await LearnerDebts.ReadAsync(db, facts, at, null, stop)).Where(d => Day.Of(d.Row.Since) < at.Period.First)];
        var awards = await LearnerAwards.ReadAsync(db, _agency, learner, Day.Date(at.AsOf), stop);
        var name = names.Learners[learner];
        var legal = await db.Learners.Where(l => l.AgencyId == _agency && l.Id == learner).Select(l => l.LegalName).SingleAsync(stop);
        return new(
            facts.Rules.Agency.Name, legal ?? name.Name, name.Code, period.Name, period.StartDay, period.EndDay, names.Person(signer),
            [.. lines.Select(Line)], [.. awards.Select(Award)], await SignaturesAsync(learner, period, stop));
    }

    private StatementLine Line(LedgerLine line)
    {
        var of = line.Line;
        return new(of.Code, [.. of.Named.Select(n => new StatementNamed(names.Person(n.PersonId), n.Days.Start, n.Days.End))],
            [.. _versions[of.IsProbes ? 0 : of.Id].Select(v => new StatementVersion(v.FromDay, v.Quantity, v.QuantityTo, v.Sessions, v.PlanWords, v.PlanPage, v.Reason, v.AssistantsCount ? true : null))],
            [.. line.Given.Select(g => Visit(of, g))],
            [.. line.NotGiven.Where(n => Judged(line.Working).Any(w => w.Window.Days.Holds(Day.Of(n.OnDay)))).Select(n => Visit(of, n))],
            [.. line.Working.Decisions.Zip(line.Decisions, Decision)],
            [.. _debts.Where(d => ReferenceEquals(d.Line, of)).Select(Debt)])
        {
            Service = of.Service is { } service ? new(service.Discipline, service.Kind, service.Place, service.Format, of.Promise.Wording) : null,
            Goal = of.IsProbes ? new(of.Area!, _goals[of.Id].Statement, of.OwnerId is { } owner ? names.Person(owner) : null) : null,
        };
    }

    private static IEnumerable<WindowWorking> Judged(Working working) => working.Closing.Concat(working.Open.Select(o => o.Window));

    private StatementVisit Visit(CommitmentLine line, EntryFact fact) => new(
        fact.OnDay, fact.NotCounted, fact.IsObserved, fact.Outcome, fact.ProviderId == 0 ? null : names.Person(fact.ProviderId), Time(fact.Start), Time(fact.End),
        fact.Reason, fact.Place, fact.Format, fact.ProviderId > 0 && !line.IsNamed(fact.ProviderId, Day.Of(fact.OnDay)),
        EnteredAfter(fact), fact.IsCorrected, fact.Value, fact.Withheld);

    private static string? Time(LocalTime? time) => time is { } known ? LocalTimePattern.CreateWithInvariantCulture("HH:mm").Format(known) : null;

    private int? EnteredAfter(EntryFact fact) => fact.RecordedAt is { } at
        ? Math.Max(0, Period.DaysBetween(fact.OnDay, at.InZone(DateTimeZoneProviders.Tzdb[facts.Rules.Agency.TimeZone]).Date)) : null;

    private StatementDecision Decision(DecisionWorking working, DecisionRow row) => new(
        row.OnDay, new(row.Amount, working.Sessions), row.Kind, row.DecidedOn, [.. row.DecidedBy.Select(names.Person)], row.OthersPresent,
        row.FamilyToldOn, row.ByDay, row.Note);

    private StatementDebt Debt(DebtOnRecord debt) => new(
        debt.Row.OnDay, debt.Row.Opened.Amount, debt.Account.Standing.Open,
        [.. debt.Account.Steps.Select(s => s.Payment).OfType<DebtPayment>()],
        [.. debt.Decisions.Where(d => d.Live).Select(d => new StatementDecision(debt.Row.OnDay, new(d.Amount, d.Sessions), d.Kind, d.DecidedOn,
            [.. d.DecidedBy.Select(names.Person)], d.OthersPresent, d.FamilyToldOn, d.ByDay, d.Note))],
        debt.Window?.Start);

    private StatementAward Award(AwardOnRecord award) => new(
        award.Row.Source, award.Row.Paper, award.Balance, award.Row.Discipline, award.Row.FromDay,
        [.. award.Given.Where(g => at.Period.Holds(Day.Of(g.OnDay))).Select(g => new StatementAwardVisit(g.OnDay, names.Person(g.ProviderId), g.Minutes))],
        award.Row.ServiceId is { } service ? facts.Lines.First(l => !l.IsProbes && l.Id == service).Code : null, award.Row.UntilDay);

    private async Task<IReadOnlyList<StatementSignature>> SignaturesAsync(int learner, PeriodRow period, CancellationToken stop)
    {
        var zone = DateTimeZoneProviders.Tzdb[facts.Rules.Agency.TimeZone];
        var signed = await (
            from s in db.ReportSignatures
            join r in db.Reports on new { s.AgencyId, s.LearnerId, Id = s.ReportId } equals new { r.AgencyId, r.LearnerId, r.Id }
            where r.AgencyId == _agency && r.LearnerId == learner && r.PeriodId == period.Id && r.Live
            orderby s.SignedAt, s.Id
            select new { s.PersonId, s.Credential, s.SignedAt }).ToListAsync(stop);
        return [.. signed.Select(s => new StatementSignature(names.Person(s.PersonId), s.Credential, s.SignedAt.InZone(zone).Date))];
    }
}
