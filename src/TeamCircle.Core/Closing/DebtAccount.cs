using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Closing;

/// <summary>What a make-up paid of a debt.</summary>
/// <param name="Entry">The make-up's place among the entries given.</param>
public sealed record DebtPayment(LocalDate Day, DebtAmount Paid, int Entry = 0);

/// <summary>What people decided about a debt after the closing.</summary>
/// <param name="By">For a make-up: by when.</param>
/// <param name="Row">Names the decision to who handed it in.</param>
public sealed record DebtDecision(LocalDate DecidedOn, DebtAmount Amount, DecisionKind Kind, LocalDate? By, int Row = 0);

/// <summary>How a debt stands: each part of it as of the day.</summary>
/// <param name="MakeUp">To be made up.</param>
/// <param name="Meeting">Before a team meeting.</param>
/// <param name="Undecided">Nobody has decided about it.</param>
/// <param name="NotOwed">Decided not owed; no longer open.</param>
/// <param name="Paid">Made up since the closing.</param>
/// <param name="By">By when; null where nothing is to be made up, or nobody named a day.</param>
public sealed record DebtStanding(DebtAmount MakeUp, DebtAmount Meeting, DebtAmount Undecided, DebtAmount NotOwed, DebtAmount Paid, LocalDate? By)
{
    /// <summary>All that is still open.</summary>
    public DebtAmount Open => MakeUp.Plus(Meeting).Plus(Undecided);

    /// <summary>What waits for the case manager: a meeting's answer, or a decision.</summary>
    public DebtAmount ToDecide => Meeting.Plus(Undecided);
}

/// <summary>One step in a debt's account, with what was open after it.</summary>
/// <param name="Payment">Null for a decision.</param>
/// <param name="Decision">Null for a payment.</param>
/// <param name="Taken">What of it the debt took: a decision never takes more than is open.</param>
public sealed record DebtStep(LocalDate On, DebtPayment? Payment, DebtDecision? Decision, DebtAmount Taken, DebtAmount OpenAfter);

/// <summary>The account of one debt: what was brought forward, made up and decided since, in order of date (docs/rules.md, part 7).</summary>
/// <remarks>
/// <para>A make-up takes from what is to be made up, then from what is before a meeting, then from what is undecided, and last
/// from what was decided not owed: what was decided not owed and yet made up is made up. A decision <em>not owed</em> takes from
/// what is undecided, then from a meeting, then from what was to be made up; <em>make up</em> from what is undecided or before
/// a meeting; <em>team meeting</em> from what is undecided or was to be made up. On one day make-ups come first.</para>
/// <para>Example: 60 undecided; 30 made up on 20 October; on 30 October decided to make up 30 more by 1 December: 30 open, all
/// of it to be made up.</para>
/// </remarks>
public sealed class DebtAccount
{
    private readonly List<DebtStep> _steps = [];
    private DebtAmount _makeUp;
    private DebtAmount _meeting;
    private DebtAmount _undecided;
    private DebtAmount _notOwed;
    private DebtAmount _paid;
    private LocalDate? _by;

    private DebtAccount(OpenedDebt debt) => (_makeUp, _meeting, _undecided, _by) = (debt.MakeUp, debt.Meeting, debt.Undecided, debt.By);

    /// <summary>The steps, oldest first.</summary>
    public IReadOnlyList<DebtStep> Steps => _steps;

    public DebtStanding Standing => new(_makeUp, _meeting, _undecided, _notOwed, _paid, _makeUp.IsNothing ? null : _by);

    /// <summary>Works the account.</summary>
    /// <param name="payments">What make-ups paid after the closing, from <see cref="PaymentsOf"/>.</param>
    /// <param name="decisions">Taken after the closing; those of one day as they were recorded.</param>
    public static DebtAccount Of(OpenedDebt debt, IEnumerable<DebtPayment> payments, IEnumerable<DebtDecision> decisions)
    {
        var account = new DebtAccount(debt);
        var steps = payments.Select(p => (On: p.Day, Payment: (DebtPayment?)p, Decision: (DebtDecision?)null))
            .Concat(decisions.Select(d => (On: d.DecidedOn, Payment: (DebtPayment?)null, Decision: (DebtDecision?)d)));
        foreach (var step in steps.OrderBy(s => s.On).ThenBy(s => s.Payment is null))
        {
            var taken = step.Payment is { } payment ? account.Pay(payment.Paid) : account.Decide(step.Decision!);
            account._steps.Add(new(step.On, step.Payment, step.Decision, taken, account.Standing.Open));
        }
        return account;
    }

    /// <summary>The payments of one debt, in order of date: of what make-ups paid, the part that was not paid before the closing.</summary>
    /// <param name="working">The line, judged as of the day.</param>
    /// <param name="debt">Its place in <see cref="LineFacts.Debts"/>.</param>
    /// <param name="paidBefore">What had been paid before the closing; the earliest make-ups paid it.</param>
    public static IEnumerable<DebtPayment> PaymentsOf(Working working, int debt, DebtAmount paidBefore)
    {
        foreach (var entry in working.GivenEntries.Where(e => e.Parts.Debt == debt).OrderBy(e => e.Entry.Day).ThenBy(e => e.Index))
        {
            var paid = new DebtAmount(entry.Parts.Paid, entry.Parts.SessionOf is { } window && window == entry.Parts.Pays ? 1 : 0);
            var before = paid.AtMost(paidBefore);
            paidBefore = paidBefore.Less(before);
            if (!paid.Less(before).IsNothing)
                yield return new(Day.Date(entry.Entry.Day), paid.Less(before), entry.Index);
        }
    }

    /// <summary>What is open of a debt and no visit is planned for.</summary>
    /// <param name="debt">Its place in <see cref="LineFacts.Debts"/>.</param>
    public static DebtAmount StillToPlan(Working working, int debt)
    {
        DebtAmount Sum(IEnumerable<EntryWorking> entries) => entries.Where(e => e.Parts.Debt == debt)
            .Aggregate(default(DebtAmount), (sum, e) => sum.Plus(new(e.Parts.Paid, e.Parts.SessionOf is { } window && window == e.Parts.Pays ? 1 : 0)));
        return working.Debts[debt].Sums(Sum(working.GivenEntries)).Open.Less(Sum(working.PlannedEntries));
    }

    private DebtAmount Pay(DebtAmount paid)
    {
        var left = paid;
        Move(ref _makeUp, ref _paid, ref left);
        Move(ref _meeting, ref _paid, ref left);
        Move(ref _undecided, ref _paid, ref left);
        Move(ref _notOwed, ref _paid, ref left);
        return paid.Less(left);
    }

    private DebtAmount Decide(DebtDecision decision)
    {
        var left = decision.Amount;
        switch (decision.Kind)
        {
            case DecisionKind.NotOwed:
                Move(ref _undecided, ref _notOwed, ref left);
                Move(ref _meeting, ref _notOwed, ref left);
                Move(ref _makeUp, ref _notOwed, ref left);
                break;
            case DecisionKind.MakeUp:
                Move(ref _undecided, ref _makeUp, ref left);
                Move(ref _meeting, ref _makeUp, ref left);
                _by = decision.By ?? _by;
                break;
            default:
                Move(ref _undecided, ref _meeting, ref left);
                Move(ref _makeUp, ref _meeting, ref left);
                break;
        }
        return decision.Amount.Less(left);
    }

    private static void Move(ref DebtAmount from, ref DebtAmount to, ref DebtAmount left)
    {
        var moved = from.AtMost(left);
        (from, to, left) = (from.Less(moved), to.Plus(moved), left.Less(moved));
    }
}
