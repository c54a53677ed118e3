using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>The case manager asks to open a closed count again, with a reason. It stays closed until a director, another person, grants it.</summary>
public sealed class AskToReopen(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Period { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Asked(int Learner);

    public Task<Outcome<Asked>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller, "asking to open a closed count again"), Operation.Of(operation, nameof(AskToReopen), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Asked>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Asked>.Refused(Problem.NotFound);
        var counts = db.Statements.Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner && s.PeriodId == input.Period
            && db.LearnerPeriods.Any(l => l.AgencyId == s.AgencyId && l.LearnerId == s.LearnerId && l.PeriodId == s.PeriodId && l.ClosedAt != null));
        if (await counts.OrderByDescending(s => s.Edition).Select(s => (int?)s.Id).FirstOrDefaultAsync(stop) is not { } statement)
            return Outcome<Asked>.Refused("", "This count is open. What is missing can be entered as always.");
        if (await db.Reopenings.AnyAsync(r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.PeriodId == input.Period && r.AnsweredAt == null, stop))
            return Outcome<Asked>.Refused("", "Somebody has asked for it already. A director answers.");
        Problem[] problems = [.. ClosingRules.CheckReason(nameof(input.Reason), input.Reason, "Say what is wrong, so that the director can judge.")];
        if (problems.Length > 0)
            return Outcome<Asked>.Refused(problems);
        db.Add(new ReopeningRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            PeriodId = input.Period,
            StatementId = statement,
            AskedBy = caller.PersonId,
            AskedAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
            Reason = input.Reason!.Trim(),
        });
        return Outcome<Asked>.Of(new(input.Learner));
    }
}
