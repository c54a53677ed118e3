using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Reports;

/// <summary>Joins what a goal's owners wrote into the one paragraph of the report, with the team's word on the goal.</summary>
public sealed class JoinGoal(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Report { get; init; }
        public int Goal { get; init; }

        /// <summary>Of the goal in the report.</summary>
        public int Version { get; init; }
        public ReportStatus? Status { get; init; }
        public string? Reason { get; init; }
        public string? Words { get; init; }
    }

    public sealed record Saved(int Report);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.Of(caller), Operation.Of(operation, nameof(JoinGoal), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReportWork.FindAsync(db, caller, input.Report, stop) is not { } work || work.Goal(input.Goal) is not { } goal
            || !ReportRules.MayWrite(caller, work.Report.LearnerId, work.Owners[input.Goal]))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (work.Report.State != ReportState.Open)
            return Outcome<Saved>.Refused(ReportRefusals.Finished);
        var reason = input.Status == ReportStatus.NotWorkedOn ? Trimmed(input.Reason) : null;
        Problem[] problems = [.. ReportRules.CheckJoined(new(input.Goal, input.Status, reason, input.Words))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(goal, input.Version);
        (goal.Status, goal.Reason, goal.Words) = (input.Status, reason, Trimmed(input.Words));
        (goal.JoinedBy, goal.JoinedAt) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()));
        work.Hashed();
        return Outcome<Saved>.Of(new(input.Report));
    }

    private static string? Trimmed(string? words) => string.IsNullOrWhiteSpace(words) ? null : words.Trim();
}
