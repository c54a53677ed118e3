using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Records what people decided about something brought forward, under the rules of every decision. Only the learner's case manager records it.</summary>
public sealed class DecideDebt(Portal portal, TimeProvider clock)
{
    public sealed record Input : DecisionInput
    {
        public int Learner { get; init; }
        public int Debt { get; init; }
    }

    public sealed record Decided(int Decision, IReadOnlyList<string> Notices);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the learner is none of the caller's to decide about, or has no such debt.</summary>
    public Task<Outcome<Decided>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(DecideDebt), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Decided>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Decided>.Refused(Problem.NotFound);
        await DecisionInput.TakeTurnAsync(db, caller.AgencyId, input.Learner, stop);
        if (await DebtSituation.ReadAsync(db, caller.AgencyId, input.Learner, input.Debt, clock, stop) is not { } situation)
            return Outcome<Decided>.Refused(Problem.NotFound);
        var debt = situation.Debt;
        var promise = debt.Line.Promise;
        var asked = input with { Sessions = input.Sessions ?? promise.SessionsIn(input.Amount ?? 0, Day.Of(debt.Row.OnDay)) };
        var open = debt.Account.Standing.Open;
        var check = await asked.CheckAsync(db, caller.AgencyId, debt.Row.OnDay, new(situation.Today, null, open.Minutes,
            promise.HasSessions ? open.Sessions : null, situation.Explained.Minutes, situation.Explained.Sessions), stop);
        if (check.Value is not { } verdict)
            return Outcome<Decided>.Refused(check.Problems);
        var row = Row(caller.AgencyId, input, verdict.Entry);
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Decided>.Of(new(row.Id, verdict.Notices));
    }

    private static DebtDecisionRow Row(int agency, Input input, DecisionEntry entry) => new()
    {
        AgencyId = agency,
        LearnerId = input.Learner,
        DebtId = input.Debt,
        Amount = entry.Amount,
        Sessions = entry.Sessions ?? 0,
        Kind = entry.Kind,
        DecidedOn = entry.DecidedOn,
        DecidedBy = [.. entry.TookPart],
        OthersPresent = input.Others,
        FamilyToldOn = entry.FamilyToldOn,
        ByDay = entry.ByDay,
        Note = entry.Why!,
    };
}
