using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Closing;

/// <summary>What stands when people decide about something brought forward.</summary>
/// <param name="Missed">Visits in its window that gave less than planned; none for what was brought by file.</param>
/// <param name="Explained">What reasons of the child, the family or nobody explain of it, and nobody has decided not owed yet.</param>
internal sealed record DebtSituation(DebtOnRecord Debt, LocalDate Today, IReadOnlyList<Missed> Missed, DebtAmount Explained)
{
    /// <summary>Null where the learner has no such debt that stands.</summary>
    public static async Task<DebtSituation?> ReadAsync(PortalDb db, int agency, int learner, int debt, TimeProvider clock, CancellationToken stop)
    {
        var (debts, today) = await AllAsync(db, agency, learner, clock, stop);
        if (debts.FirstOrDefault(d => d.Row.Id == debt) is not { } found)
            return null;
        if (found.Window is null)
            return new(found, today, [], default);
        var about = new DecisionAbout(learner, found.Row.ServiceId, found.Row.GoalId, found.Row.OwnerId, found.Row.OnDay);
        var shortfall = await Shortfall.ReadAsync(db, agency, about, clock, stop);
        var explained = shortfall is null ? default : new DebtAmount(shortfall.ExplainedLeft, shortfall.SessionsExplainedLeft);
        return new(found, today, shortfall?.Missed ?? [], explained.Less(found.Account.Standing.NotOwed));
    }

    /// <summary>All that a learner was brought forward, as of today.</summary>
    public static async Task<(IReadOnlyList<DebtOnRecord> Debts, LocalDate Today)> AllAsync(PortalDb db, int agency, int learner, TimeProvider clock, CancellationToken stop)
    {
        var rules = await AgencyRules.ReadAsync(db, agency, stop);
        var today = AgencyClock.Today(clock, rules.Agency.TimeZone);
        var facts = await new ReadFacts(db, new(agency, [learner]), rules, Day.Of(today)).RunAsync(stop);
        var at = new Judging(new(Day.Of(today), Day.Of(today)), Day.Of(today), rules.Policies);
        return (await LearnerDebts.ReadAsync(db, facts, at, null, stop), today);
    }
}
