using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>A director grants or refuses a request to open a closed count again, with a reason. Granted, the count takes writes until it is closed as the next edition.</summary>
public sealed class AnswerReopening(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Period { get; init; }
        public int Version { get; init; }

        /// <summary>No default: nothing is proposed.</summary>
        public bool? Grant { get; init; }
        public string? Answer { get; init; }
    }

    public sealed record Answered(bool Granted);

    public Task<Outcome<Answered>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.WholeAgency(caller, "opening a closed count again"), Operation.Of(operation, nameof(AnswerReopening), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Answered>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var request = caller.Is(Role.Director) ? await db.Reopenings.AsTracking().SingleOrDefaultAsync(
            r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.PeriodId == input.Period && r.AnsweredAt == null, stop) : null;
        if (request is null)
            return Outcome<Answered>.Refused(Problem.NotFound);
        db.BeganOn(request, input.Version);
        Problem[] problems = [.. Problems(caller, request, input)];
        if (problems.Length > 0)
            return Outcome<Answered>.Refused(problems);
        (request.AnsweredBy, request.AnsweredAt) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()));
        (request.Granted, request.Answer) = (input.Grant, input.Answer!.Trim());
        if (request.Granted == true)
            await OpenAsync(db, request, stop);
        return Outcome<Answered>.Of(new(request.Granted == true));
    }

    private static IEnumerable<Problem> Problems(Caller caller, ReopeningRow request, Input input)
    {
        if (request.AskedBy == caller.PersonId)
            yield return new("", "You asked for this yourself: another director answers.");
        if (input.Grant is null)
            yield return new(nameof(input.Grant), "Choose whether the count is opened again.");
        foreach (var problem in ClosingRules.CheckReason(nameof(input.Answer), input.Answer, "Say why, in your own words."))
            yield return problem;
    }

    private static async Task OpenAsync(PortalDb db, ReopeningRow request, CancellationToken stop)
    {
        var count = await db.Locked<LearnerPeriodRow>(
            $"agency_id = {request.AgencyId} and learner_id = {request.LearnerId} and period_id = {request.PeriodId}")
            .AsTracking().SingleAsync(stop);
        await OpenDebts.WithdrawAsync(db, request.AgencyId, request.LearnerId, request.PeriodId, stop); // closing again brings forward what lacks then
        (count.ClosedAt, count.ClosedBy, count.FirstDay, count.LastDay) = (null, null, null, null);
    }
}
